import type { CohortCoverage } from '../../access/coverage';
import { listed, nameOf } from '../../document/names';
import type { Person } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import type { Candidate, MendInput, Proposal } from '../define-mend';
import { extended } from './extend-dates';
import { joined } from './join-assignment';
import { notWorking } from './not-working';
import { ownAccess } from './own-access';
import { type Situation, neededOf, situationOfShifts } from './situation';
import { widened } from './widen';

/** How many people in the same position get access of their own together. */
const mostTogether = 200;

/**
 * Ways to let somebody work the shifts that are not covered. Where shifts are uncovered on holidays and on other days, what is
 * missing on either is looked at together: a change that mends half of it is no smaller, only later.
 */
export function proposalOfShifts(input: MendInput, isMeant: (isOnHoliday: boolean) => boolean): Proposal {
	const { rollout, access, coverage, subject } = input;
	const person = rollout.people.find(({ id }) => id === subject['person']);
	const whole = person && situationOfShifts(access, coverage, person, () => true);
	const meant = person && situationOfShifts(access, coverage, person, isMeant);
	if (!whole || !meant) return { candidates: [], needed: [] };
	const isMore = whole.shifts.length > meant.shifts.length;
	const others = inSamePosition(input, whole);
	const situations = isMore ? [whole, meant] : [whole];
	const candidates = situations.flatMap((situation): Candidate[] => [
		...widened(situation),
		...joined(situation),
		...extended(situation),
		...ownAccess(situation, situation === whole ? others : [])
	]);
	const whyNone = whyNoneOf(meant);
	return {
		candidates: [...candidates, ...notWorking(meant), ...(isMore ? notWorking(whole) : [])],
		needed: [whole, ...others].flatMap(neededOf),
		...(whyNone === undefined ? {} : { whyNone })
	};
}

/** Others on the same pattern and in the same work areas who lack the same doors: one profile can serve all of them. */
function inSamePosition({ rollout, access, coverage }: MendInput, situation: Situation): Situation[] {
	const { person } = situation;
	const areas = [...person.workAreas].sort().join('\n');
	const doors = [...situation.needs.byDoor.keys()].sort().join();
	const alike = rollout.people.filter(
		(other) =>
			other.id !== person.id &&
			other.shiftPattern === person.shiftPattern &&
			[...other.workAreas].sort().join('\n') === areas
	);
	// People who are alike and never away have the same gaps: they are worked out once.
	const known = new Map<CohortCoverage, Situation | null>();
	const situationIn = (other: Person) => {
		const make = () => situationOfShifts(access, coverage, other, () => true);
		return coverage.absencesOf(other).length > 0 ? make() : remembered(known, coverage.cohortOf(other), make);
	};
	return alike
		.slice(0, mostTogether)
		.flatMap((other): Situation[] => {
			const like = situationIn(other);
			return like ? [{ ...like, person: other }] : [];
		})
		.filter(({ needs }) => [...needs.byDoor.keys()].sort().join() === doors);
}

function whyNoneOf({ rollout, model, needs }: Situation): string | undefined {
	if (needs.unreachable.length === 0) return undefined;
	const names = needs.unreachable.map((place) => nameOf(rollout.areas, model.building.areaIds[place]));
	return `No chain of doors leads to ${listed(names)}: first the building needs a way in.`;
}
