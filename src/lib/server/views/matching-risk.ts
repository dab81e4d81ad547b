import matchingRisk, { type MatchingRiskAnswer } from '$lib/core/answers/matching-risk';
import { nameOf } from '$lib/core/document/names';
import type { Fault } from '$lib/core/kernel/fault';
import { doorRisk, falseIdentification, halfWidthAt90, testedRate } from '$lib/core/privacy/matching-risk';
import { ask } from '$lib/server/answers';
import type { OpenRollout } from '$lib/server/open-rollouts';

/** The fields of the form, with what they are where nothing is typed. */
export const riskFields = { rate: '0.0001', fingers: '2', attempts: '5', digits: '4', goal: '0.001' } as const;

/** The risk of a finger-only door by how many are enrolled. */
export interface RiskBySize {
	readonly people: number;
	readonly oneTry: number;
	readonly finger: number;
	readonly withNumber: number;
}

/** What the sheet shows: the terms as typed, faults of them, and the answer by doors and by numbers of people. */
export interface RiskView {
	readonly typed: Readonly<Record<string, string>>;
	readonly faults: readonly Fault[];
	readonly found: (MatchingRiskAnswer & { readonly names: Readonly<Record<string, string>> }) | null;
	readonly bySize: readonly RiskBySize[];
	/** What a test says that was done: `errors` in `trials`. */
	readonly tested: {
		readonly errors: number;
		readonly trials: number;
		readonly seen: number;
		readonly low: number;
		readonly high: number;
		readonly halfWidth: number | null;
	} | null;
}

const sizes = [10, 30, 100, 300, 1000, 3000];

/** Reckons the risk by the terms in an address. */
export async function riskView(open: OpenRollout, query: URLSearchParams): Promise<RiskView> {
	const typed = Object.fromEntries(
		Object.entries(riskFields).map(([name, usual]) => [name, query.get(name)?.trim() || usual])
	);
	const params = Object.fromEntries(
		Object.entries(typed).map(([name, text]) => [name, Number.isNaN(Number(text)) ? text : Number(text)])
	);
	const answer = await ask(open, matchingRisk, params);
	const tested = testedOf(query);
	if (!answer.ok) return { typed, faults: answer.faults, found: null, bySize: [], tested };
	const { rate, fingers, attempts, digits, doors } = answer.value;
	const risk = (people: number, pinDigits: number) =>
		doorRisk({ fmr: rate, people, fingersEach: fingers, attempts, pinDigits });
	const most = Math.max(0, ...doors.map(({ people }) => people));
	return {
		typed,
		faults: [],
		found: {
			...answer.value,
			names: Object.fromEntries(doors.map(({ door }) => [door, nameOf(open.rollout.doors, door)]))
		},
		bySize: [...new Set([...sizes, ...(most > 0 ? [most] : [])])]
			.sort((a, b) => a - b)
			.map((people) => ({
				people,
				oneTry: falseIdentification(rate, people * fingers),
				finger: risk(people, 0),
				withNumber: risk(people, digits)
			})),
		tested
	};
}

function testedOf(query: URLSearchParams): RiskView['tested'] {
	const [errors, trials] = ['errors', 'trials'].map((name) => {
		const text = query.get(name)?.trim() ?? '';
		return /^\d{1,12}$/.test(text) ? Number(text) : null;
	});
	if (errors === null || errors === undefined || trials === null || trials === undefined) return null;
	if (trials < 1 || errors > trials) return null;
	return { errors, trials, ...testedRate(errors, trials), halfWidth: errors < 10 ? null : halfWidthAt90(errors) };
}
