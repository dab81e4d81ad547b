import { describe, expect, it } from 'vitest';
import { readDocument } from '../../document/read';
import type { Rollout } from '../../document/schema';
import { rulePacks } from '../packs';
import { sourceOf } from '../define-pack';
import { type PaperSection, blanksOf } from '../define-paper';
import { papers } from '.';

function site(privacy: object, more: object = {}): Rollout {
	const read = readDocument(
		JSON.stringify({
			format: 'doorwright.rollout',
			version: 1,
			site: { name: 'Kiln Yard', timeZone: 'Europe/Paris' },
			horizon: { from: '2027-01-01', until: '2027-03-31' },
			privacy,
			...more
		}),
		{ regimes: [...rulePacks.keys()] }
	);
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	return read.value.rollout;
}

const textOf = (sections: readonly PaperSection[]) => JSON.stringify(sections);
const stating = (id: string, rollout: Rollout) => papers.get(id)?.make(rollout) ?? [];

describe('papers', () => {
	it('there are the four that counsel is asked to review', () => {
		expect([...papers.keys()]).toEqual([
			'impact-assessment',
			'notice-draft',
			'record-of-processing',
			'retention-policy'
		]);
	});

	describe.each([...papers.keys()])('%s', (id) => {
		it('every rule of every listed pack stands in it with statute, section and each claim; no rule of another', () => {
			for (const pack of rulePacks.values()) {
				const text = textOf(stating(id, site({ regimes: [pack.id] })));
				for (const rule of pack.rules) {
					for (const said of [rule.title, sourceOf(rule), ...rule.claims.map(({ about }) => about)]) {
						expect(text).toContain(JSON.stringify(said).slice(1, -1));
					}
				}
				if (pack.id !== 'us-il') expect(text).not.toContain('740 ILCS');
			}
		});

		it('shows blanks where the document holds nothing, and facts where it does', () => {
			const office = {
				controller: 'Kiln Yard Ltd',
				address: '1 Kiln Lane',
				contact: 'privacy desk',
				officer: 'the officer',
				purpose: 'opening the kiln doors',
				alternative: 'a card',
				recipients: 'nobody',
				safeguards: 'locked rooms',
				publishedAt: 'the notice board'
			};
			const before = blanksOf(stating(id, site({ regimes: ['us-il'] })));
			const filled = stating(id, site({ regimes: ['us-il'], office }));
			const after = blanksOf(filled);
			expect(before).toEqual(expect.arrayContaining(['who is responsible for the data', 'purpose', 'contact']));
			for (const blank of ['who is responsible for the data', 'address', 'contact', 'purpose', 'other credential']) {
				expect(after).not.toContain(blank);
			}
			expect(textOf(filled)).toContain('opening the kiln doors');
		});

		it('names no person of the site', () => {
			const people = [{ id: '7', name: 'Ottoline Quaverley' }];
			const templates = [{ person: '7', enrolledOn: '2026-11-02', storedOn: ['panel'] }];
			const consents = [{ person: '7', notice: 'n', decision: 'given', on: '2026-11-01' }];
			const rollout = site({ regimes: ['eu'], notices: [{ id: 'n' }], templates, consents }, { people });
			expect(textOf(stating(id, rollout))).not.toContain('Quaverley');
		});
	});

	it('Washington names no number of days: the site gives its own, or a blank stands there (RCW 19.375.020(4))', () => {
		const without = stating('retention-policy', site({ regimes: ['us-wa'] }));
		expect(textOf(without)).toContain('RCW 19.375.020(4)');
		const own = stating('retention-policy', site({ regimes: ['us-wa'], siteRules: { daysAfterLeaving: 5 } }));
		expect(blanksOf(without).filter((blank) => blank === 'days').length).toBe(
			blanksOf(own).filter((blank) => blank === 'days').length + 1
		);
		expect(textOf(own)).toContain('5 days after leaving');
	});

	it('lists each place that holds a template, also one that only the templates name', () => {
		const templates = [{ person: '7', enrolledOn: '2026-11-02', storedOn: ['panel'] }];
		const places = [{ id: 'tape', name: 'Nightly tape', kind: 'backup', copies: ['panel'], keepsDays: 30 }];
		const text = textOf(stating('record-of-processing', site({ templates, places }, { people: [{ id: '7' }] })));
		expect(text).toContain('panel');
		expect(text).toContain('Nightly tape');
		expect(text).toContain('30 days after it is erased at its sources');
	});
});
