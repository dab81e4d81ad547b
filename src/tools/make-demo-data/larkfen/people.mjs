import { nameDrawer, plainLetters } from '../names.mjs';
import { Seeded } from '../seeded.mjs';
import { slots } from './slots.mjs';

/** The people of Larkfen Cold Store, their absences, and who of them the other parts speak of. */

/**
 * A person as the document has it; the name also in its two parts, which the HR system keeps apart.
 * @typedef {{ given: string, family: string, tag: string | undefined, person: ReturnType<typeof personOf> }} Member
 */

const writesMail = /lead|Dispatcher|Quality|operator|Fitter|Electrician|Guard/;
const millisecondsPerDay = 86_400_000;
const lastDays = new Map([
	['leaving-admin', '2026-12-18'],
	['former-guard', '2026-11-13'],
	['held-guard', '2026-11-06'],
	// A Thursday: the last night shift begins on it, and ends on a Friday on which nobody is employed any more.
	['night-leaver', '2027-04-29']
]);

/** Some people have one name. */
const oneName = { given: '', family: 'Suryanti', name: 'Suryanti', language: 'en' };

/** @type {readonly Member[]} */
export const members = makeMembers();

function makeMembers() {
	const random = new Seeded(20270104);
	const drawName = nameDrawer(random);
	const ranks = shuffled(random, slots.length);
	const numbers = staffNumbers(random, slots.length);
	const made = slots.map((slot, index) => {
		const rank = ranks[index] ?? 0;
		const name = slot.tag === 'pest-control' ? oneName : drawName();
		const joins = slot.tag === 'joiner';
		const startsOn = joins ? '2027-02-15' : startOfRank(random, rank, slots.length);
		const person = personOf(slot, random, name, numbers[rank] ?? '', startsOn);
		return { given: name.given, family: name.family, tag: slot.tag, person };
	});
	return giveNeeds(made).sort((one, other) => (one.person.id < other.person.id ? -1 : 1));
}

/**
 * @param {import('./slots.mjs').Slot} slot
 * @param {Seeded} random
 * @param {{ given: string, family: string, name: string, language: string }} name
 * @param {string} id
 * @param {string} startsOn
 */
function personOf(slot, random, name, id, startsOn) {
	const mailed = slot.department === 'Office' || writesMail.test(slot.job) || random.chance(0.45);
	const firm = slot.department === 'Contractors' ? 'contractors.larkfen.example' : 'larkfen.example';
	return {
		id,
		name: name.name,
		department: slot.department,
		job: slot.job,
		email: mailed
			? `${[name.given, name.family]
					.filter((part) => part !== '')
					.map(plainLetters)
					.join('.')}@${firm}`
			: null,
		startsOn,
		leavesOn: lastDays.get(slot.tag ?? '') ?? null,
		shiftPattern: slot.pattern,
		workAreas: slot.workAreas,
		wave: slot.wave,
		captureClass: random.chance(slot.worn) ? 'worn' : 'standard',
		/** @type {string[]} */
		needs: [],
		language: name.language
	};
}

/**
 * Needs of a few: two who must not climb, two who take it in quiet, some who want somebody who speaks their language.
 * @param {Member[]} made
 */
function giveNeeds(made) {
	/** @param {(member: Member) => boolean} fits @param {number} skip @param {string} need */
	const give = (fits, skip, need) => {
		const member = made.filter(fits)[skip];
		if (member) member.person.needs = [...member.person.needs, need];
	};
	give(({ person }) => person.department === 'Office' && person.job === 'Buyer', 0, 'step-free');
	give(({ person }) => person.department === 'Packing' && person.shiftPattern === 'SWAP-B', 4, 'step-free');
	give(({ person }) => person.department === 'Office' && person.job === 'Payroll clerk', 1, 'quiet');
	give(({ tag }) => tag === 'quiet-night', 0, 'quiet');
	for (const skip of [3, 9]) {
		give(({ person }) => person.department === 'Picking' && person.language === 'es', skip, 'interpreter-es');
	}
	give(({ person }) => person.department === 'Packing' && person.language === 'pl', 1, 'interpreter-pl');
	give(({ person }) => person.department === 'Night crew' && person.language === 'pl', 0, 'interpreter-pl');
	return made;
}

/**
 * Staff numbers of five digits with their leading zeros, in the order of hiring, with the gaps that leavers left.
 * @param {Seeded} random
 * @param {number} count
 */
function staffNumbers(random, count) {
	let number = 103;
	return Array.from({ length: count }, () => {
		number += random.whole(1, 7);
		return String(number).padStart(5, '0');
	});
}

/**
 * Places in the order of hiring: 0 has been there longest; those who are yet to join come last.
 * @param {Seeded} random
 * @param {number} count
 */
function shuffled(random, count) {
	const order = Array.from({ length: count }, (_, index) => ({
		index,
		at: slots[index]?.tag === 'joiner' ? 2 : random.next()
	})).sort((one, other) => one.at - other.at);
	/** @type {number[]} */
	const ranks = [];
	order.forEach(({ index }, rank) => (ranks[index] = rank));
	return ranks;
}

/**
 * A Monday between March 2009 and October 2026, later the higher the rank.
 * @param {Seeded} random
 * @param {number} rank
 * @param {number} count
 */
function startOfRank(random, rank, count) {
	const first = Date.UTC(2009, 2, 2) / millisecondsPerDay;
	const last = Date.UTC(2026, 9, 19) / millisecondsPerDay;
	const share = (rank + random.next() * 0.9) / count;
	const weeks = Math.floor(((last - first) / 7) * share ** 0.6);
	return new Date((first + weeks * 7) * millisecondsPerDay).toISOString().slice(0, 10);
}

/**
 * The people with a tag, in the order of their staff numbers.
 * @param {string} tag
 */
export function tagged(tag) {
	return members.filter((member) => member.tag === tag).map(({ person }) => person);
}

/** Everybody, in the order of their staff numbers. */
export function people() {
	return members.map(({ person }) => person);
}

/** Leave and sickness that is known in November 2026. */
export function absences() {
	/** @param {string} department @param {number} skip */
	const of = (department, skip) => people().filter((person) => person.department === department)[skip]?.id ?? '';
	return [
		...tagged('on-leave').map(({ id }) => ({ person: id, from: '2026-12-14', until: '2027-04-02' })),
		{ person: of('Picking', 6), from: '2027-01-18', until: '2027-01-20' },
		{ person: of('Picking', 31), from: '2027-01-11', until: '2027-01-15' },
		{ person: of('Dock', 11), from: '2027-01-18', until: '2027-01-22' },
		{ person: of('Packing', 20), from: '2027-01-25', until: '2027-01-26' },
		{ person: of('Night crew', 15), from: '2027-01-24', until: '2027-01-26' },
		{ person: of('Maintenance', 2), from: '2027-01-04', until: '2027-01-12' },
		{ person: of('Refrigeration', 9), from: '2027-06-14', until: '2027-06-27' },
		{ person: of('Office', 15), from: '2027-07-19', until: '2027-07-30' }
	];
}
