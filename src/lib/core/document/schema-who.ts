import type { z } from 'zod';
import { date, entry, id, listOf, maybe, orElse, stretchText, whole, word, words, yesOrNo } from './fields';

/** Who: people, the patterns of their shifts, absences; and who gets which access profile. */

export const person = entry({
	id,
	name: maybe(words),
	department: maybe(words),
	job: maybe(words),
	email: maybe(words),
	startsOn: maybe(date).describe('First day employed, inclusive'),
	leavesOn: maybe(date).describe('Last day employed, inclusive'),
	shiftPattern: maybe(id),
	workAreas: listOf(id).describe('Areas that must be reached during shifts'),
	wave: maybe(id),
	captureClass: maybe(id).describe('The first capture class where left out'),
	needs: listOf(words).describe('What a station must serve, such as step-free'),
	language: maybe(words)
});

export const shift = entry({
	day: whole().describe('Day of the cycle, from 0'),
	at: stretchText
});

export const shiftPattern = entry({
	id,
	name: maybe(words),
	anchor: date.describe('A date that is day 0 of the cycle'),
	cycleDays: whole(1),
	shifts: listOf(shift),
	worksOn: listOf(word).describe('Kinds of holiday on which shifts start all the same')
});

export const absence = entry({ person: id, from: maybe(date), until: maybe(date) });

export const profileEntry = entry({ doorGroup: id, schedule: id });

export const accessProfile = entry({ id, name: maybe(words), entries: listOf(profileEntry) });

export const who = entry({
	everyone: orElse(yesOrNo, () => false),
	people: listOf(id),
	departments: listOf(words),
	jobs: listOf(words),
	waves: listOf(id)
});

export const assignment = entry({
	id,
	who,
	accessProfile: id,
	from: maybe(date),
	until: maybe(date),
	approvedBy: maybe(words)
});

export const whoLists = {
	people: listOf(person),
	shiftPatterns: listOf(shiftPattern),
	absences: listOf(absence),
	accessProfiles: listOf(accessProfile),
	assignments: listOf(assignment)
};

export type Person = z.output<typeof person>;
export type ShiftPattern = z.output<typeof shiftPattern>;
export type Absence = z.output<typeof absence>;
export type AccessProfile = z.output<typeof accessProfile>;
export type Assignment = z.output<typeof assignment>;
export type Who = z.output<typeof who>;
