import { z } from 'zod';
import { AccessModel } from '../access/model';
import { amount, whole } from '../document/fields';
import { counted, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { standingByPerson } from '../enrollment/standing';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import {
	type FallbackNeed,
	doorRisk,
	fallbackNeed,
	neededFalseMatchRate,
	trialsForRuleOf30,
	trialsWithoutError
} from '../privacy/matching-risk';
import { defineAnswer } from './define-answer';

const params = z.strictObject({
	rate: amount(1e-12, 0.5)
		.default(1e-4)
		.describe('False match rate of the readers, by their maker or a test: 0.0001 is 1 in 10,000'),
	fingers: whole(1, 10).default(2).describe('Templates of each person'),
	attempts: whole(1, 1000).default(5).describe('Tries of a stranger before somebody notices'),
	digits: whole(1, 12).default(4).describe('Digits of the number that is typed as well'),
	goal: amount(1e-12, 0.5).default(1e-3).describe('The chance in one try that should not be exceeded')
});

type Params = z.output<typeof params>;

/** A door that reads a finger, and how likely a stranger opens it. */
export interface DoorMatchingRisk {
	readonly door: string;
	readonly identify: Rollout['doors'][number]['identify'];
	/** People who may open it at some time in the horizon and have not declined. */
	readonly people: number;
	/** In all tries: as the door is, with a finger alone, and with a number as well. */
	readonly asItIs: number;
	readonly fingerOnly: number;
	readonly fingerAndPin: number;
	/** The false match rate with which a finger alone keeps the goal in one try. */
	readonly neededRate: number;
}

export interface MatchingRiskAnswer extends Params {
	readonly doors: readonly DoorMatchingRisk[];
	/** What a test of the readers must be like to claim the rate. */
	readonly test: { readonly ruleOf3: number; readonly exact: number; readonly ruleOf30: number };
	/** Other credentials to keep in stock, by the assumed failures to enroll. */
	readonly fallback: FallbackNeed & { readonly people: number; readonly failToEnroll: number };
}

export default defineAnswer<Params, MatchingRiskAnswer>({
	name: 'matching-risk',
	summary:
		'How likely a stranger opens a door that reads a finger, what a typed number changes, and how large a test must be.',
	params,
	run(rollout, terms) {
		const standings = standingByPerson(rollout);
		const { failToEnroll } = rollout.enrollment.assumptions;
		const toEnroll = rollout.people.filter(({ id }) => standings.get(id) === 'to-book').length;
		return Promise.resolve(
			ok({
				...terms,
				doors: doorsOf(rollout, terms, standings),
				test: { ...trialsWithoutError(terms.rate), ruleOf30: trialsForRuleOf30(terms.rate) },
				fallback: { people: toEnroll, failToEnroll, ...fallbackNeed(toEnroll, failToEnroll) }
			})
		);
	},
	isBad: () => false,
	text
});

function doorsOf(rollout: Rollout, terms: Params, standings: ReturnType<typeof standingByPerson>): DoorMatchingRisk[] {
	const model = new AccessModel(rollout);
	const counts = new Int32Array(rollout.doors.length);
	for (const one of model.classes) {
		const fingers = one.people.filter((person) => standings.get(person.id) !== 'declined').length;
		model.doorsOf(one).opened.forEach((isOpened, door) => {
			if (isOpened === 1) counts[door] = (counts[door] as number) + fingers;
		});
	}
	return rollout.doors.flatMap(({ id, identify }, door) => {
		if (identify === 'card') return [];
		const people = counts[door] as number;
		const risk = (pinDigits: number): number =>
			doorRisk({ fmr: terms.rate, people, fingersEach: terms.fingers, attempts: terms.attempts, pinDigits });
		// A card says who it is: then one person's templates are compared, not everybody's.
		const withCard = doorRisk({ fmr: terms.rate, people: 1, fingersEach: terms.fingers, attempts: 1, pinDigits: 0 });
		const [fingerOnly, fingerAndPin] = [risk(0), risk(terms.digits)];
		return {
			door: id,
			identify,
			people,
			asItIs: identify === 'finger' ? fingerOnly : identify === 'finger-and-pin' ? fingerAndPin : withCard,
			fingerOnly,
			fingerAndPin,
			neededRate: neededFalseMatchRate(terms.goal, people * terms.fingers)
		};
	});
}

function text(answer: MatchingRiskAnswer, rollout: Rollout): string {
	const columns = ['Door', 'Identified by', 'People', 'As it is', 'Finger alone', 'With a number', 'Rate it takes'];
	const rows = answer.doors.map((one) => [
		nameOf(rollout.doors, one.door),
		one.identify,
		String(one.people),
		chance(one.asItIs),
		chance(one.fingerOnly),
		chance(one.fingerAndPin),
		one.neededRate.toExponential(2)
	]);
	const { test, fallback } = answer;
	return [
		`A stranger who tries ${answer.attempts} times, ${answer.fingers} templates a person, false match rate ${answer.rate}:`,
		textTable(
			columns.map((heading) => ({ heading })),
			rows
		),
		`The last column: the rate with which one try at a finger alone stays under ${chance(answer.goal)}.`,
		`To claim the rate of ${answer.rate} takes ${test.ruleOf3} comparisons of strangers without any error (rule of 3; exactly ${test.exact}), or as many as show 30 errors, about ${test.ruleOf30} (rule of 30).`,
		`Of ${fallback.people} people still to be enrolled about ${fallback.mean.toFixed(1)} cannot be (assumed ${(100 * fallback.failToEnroll).toFixed(1)} %); ${counted(fallback.p95, 'other credential')} in stock will do in 95 of 100 cases.`,
		assumed
	].join('\n\n');
}

/** As a share with a sensible number of digits, and as one in so many. */
function chance(value: number): string {
	if (value === 0) return 'none';
	if (value >= 0.01) return `${(100 * value).toFixed(1)} %`;
	return `1 in ${Math.round(1 / value)}`;
}

const assumed =
	'Reckoned as if comparisons erred independently and only people who may open the door were searched; numbers as if chosen evenly; with a ' +
	'card, as if it were stolen. Figures to plan with, no promise: a reader is to be judged by tests of its own (ISO/IEC 19795-1).';
