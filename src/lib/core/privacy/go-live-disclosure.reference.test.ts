import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { localDate } from '../calendar/local-date';
import { goLiveDisclosures } from './go-live-disclosure';
import { weekdaysBut } from './working-days';

function disclosures(goLives: (string | null)[], regimes = ['ca-qc']) {
	const waves = goLives.map((goLive, index) => ({
		id: `w${index}`,
		goLive: goLive === null ? null : localDate(goLive)
	}));
	return goLiveDisclosures(rolloutOf({ enrollment: { waves }, privacy: { regimes } }), weekdaysBut([]));
}

describe('Quebec, CQLR c. C-1.1 section 45: disclosed no later than 60 days before being put into service', () => {
	test.each([
		['V-RET-06a', '2027-03-01', '2026-12-31', '2026-12-31'],
		['V-RET-06b', '2027-06-01', '2027-04-02', '2027-04-02'],
		['V-RET-06c: leap year, a Saturday, so filed on Friday', '2028-03-01', '2028-01-01', '2027-12-31'],
		['V-RET-06d', '2028-04-30', '2028-03-01', '2028-03-01']
	])('%s: go-live %s, latest %s, file by %s', (_, goLive, latestOn, fileBy) => {
		expect(disclosures([goLive])).toMatchObject([{ pack: 'ca-qc', goLive, latestOn, fileBy }]);
	});

	test('a day of margin is shown, since whether both end days count is not settled', () => {
		expect(disclosures(['2027-03-01'])[0]?.cautiousOn).toBe('2026-12-30');
	});
});

test('the earliest wave counts, wherever it stands in the list', () => {
	expect(disclosures(['2027-06-01', null, '2027-03-01', '2027-09-01'])[0]?.goLive).toBe('2027-03-01');
});

test('no wave with a go-live, or no pack that asks for it: nothing to disclose', () => {
	expect(disclosures([null])).toEqual([]);
	expect(disclosures([])).toEqual([]);
	expect(disclosures(['2027-03-01'], ['eu', 'us-il'])).toEqual([]);
});
