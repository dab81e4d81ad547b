import { z } from 'zod';
import { momentWords } from '../access/explain-sentence';
import { doorsInto, findOpeners } from '../access/openers';
import type { LocalDateTime } from '../calendar/local-date-time';
import { counted, listed, nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';
import { dateTimeParam, unknownId } from './support/params';

/** Somebody who may open one of the doors asked about. */
export interface WhoOpens {
	readonly person: string;
	readonly department: string | null;
	/** Which of the doors. */
	readonly doors: readonly string[];
	/** Whether they can get to one of them then. */
	readonly canReach: boolean;
}

export interface WhoAnswer {
	/** The moment as it is read, RFC 3339. */
	readonly at: string;
	readonly doors: readonly string[];
	readonly count: number;
	/** How many of them cannot get there. */
	readonly stranded: number;
	/** In the order of the document. */
	readonly people: readonly WhoOpens[];
}

interface Params {
	readonly door?: string | undefined;
	readonly area?: string | undefined;
	readonly at: LocalDateTime;
	readonly department?: string | undefined;
}

export default defineAnswer<Params, WhoAnswer>({
	name: 'who',
	summary: 'Who may open a door, or a door into an area, at a moment; and who of them can get there.',
	params: z.strictObject({
		door: z.string().optional().describe('Id of a door'),
		area: z.string().optional().describe('In place of a door: id of an area, for all doors that lead into it'),
		at: dateTimeParam.describe('Local date and time at the site, like 2027-12-25T02:30'),
		department: z.string().optional().describe('Only people of this department')
	}),
	run(rollout, params) {
		const faults = faultsOf(rollout, params);
		if (faults.length > 0) return Promise.resolve(refused(faults));
		const doors = params.door === undefined ? doorsInto(rollout, params.area ?? '') : [params.door];
		const { at, openers } = findOpeners(rollout, doors, params.at);
		const people = openers
			.filter(({ person }) => params.department === undefined || person.department === params.department)
			.map(({ person, doors: opened, canReach }): WhoOpens => {
				return { person: person.id, department: person.department, doors: opened, canReach };
			});
		const stranded = people.filter(({ canReach }) => !canReach).length;
		return Promise.resolve(ok({ at, doors, count: people.length, stranded, people }));
	},
	isBad: () => false,
	text({ doors, count, stranded, people }, rollout, asked) {
		const where = asked.area === undefined ? '' : ` into ${nameOf(rollout.areas, asked.area)}`;
		const which = doors.length === 0 ? 'no door at all' : listed(doors.map((id) => nameOf(rollout.doors, id)));
		const lines = [
			`${count === 0 ? 'Nobody' : counted(count, 'person', 'people')} may open ${which}${where} on ${momentWords(asked.at)}.`,
			...(stranded === 0 ? [] : [`${stranded} of them cannot get there then.`])
		];
		if (count === 0) return lines.join('\n');
		const rows = people.map(({ person, department, doors: opened, canReach }) => [
			person,
			nameOf(rollout.people, person),
			department ?? '',
			listed(opened.map((id) => nameOf(rollout.doors, id))),
			canReach ? '' : 'cannot get there'
		]);
		const headings = ['person', 'name', 'department', 'doors', ''].map((heading) => ({ heading }));
		return [...lines, '', textTable(headings, rows)].join('\n');
	}
});

function faultsOf(rollout: Rollout, { door, area, department }: Params): Fault[] {
	const departments = new Set(rollout.people.flatMap((person) => person.department ?? []));
	const isKnown = department === undefined || departments.has(department);
	return [
		...(door === undefined ? [] : unknownId('door', door, 'a door', rollout.doors)),
		...(area === undefined ? [] : unknownId('area', area, 'an area', rollout.areas)),
		...(door === undefined && area === undefined ? [fault(['door'], undefined, 'a door, or else an area')] : []),
		...(door !== undefined && area !== undefined ? [fault(['area'], area, 'nothing, since a door is given')] : []),
		...(isKnown
			? []
			: [fault(['department'], department, 'a department of somebody', nearestName(department, departments))])
	];
}
