import { dateWords } from '$lib/core/calendar/date-words';
import type { LocalDate } from '$lib/core/calendar/local-date';
import type { LocalDateTime } from '$lib/core/calendar/local-date-time';
import { whoWords } from '$lib/core/access/block-details';
import type { Break, Chain } from '$lib/core/access/chains';
import { type ExplainedAccess, explainInDepth } from '$lib/core/access/explain';
import { explanationNotes, explanationSentence, momentWords, sinceWords } from '$lib/core/access/explain-sentence';
import { nameOf } from '$lib/core/document/names';
import type { Person, Rollout } from '$lib/core/document/schema';
import type { ExplainedChain, ExplainedLink, ExplainedView, LinkRole } from '$lib/components/access/explained';
import { momentOf } from './who-at';

/** Chains drawn at most; further ones are told as sentences. */
const mostDrawn = 3;

/** Why a person may, or may not, open a door at a local moment, ready to be drawn. */
export function explainedView(rollout: Rollout, person: Person, door: string, at: LocalDateTime): ExplainedView {
	const depth = explainInDepth(rollout, person, door, at);
	const { explanation, chains } = depth;
	const drawer = new ChainDrawer(rollout, person, door, at, depth);
	const holding = chains.filter(({ broken }) => broken.length === 0);
	const shown = explanation.allowed ? holding : chains;
	const drawn = shown.slice(0, mostDrawn);
	return {
		state: !explanation.allowed ? 'may not' : explanation.route ? 'may' : 'may, cannot get there',
		sentence: explanationSentence(rollout, { person: person.id, door, at }, explanation),
		notes: explanationNotes(rollout, at),
		chains: drawn.length > 0 ? drawn.map((chain) => drawer.draw(chain)) : [drawer.unmatched()],
		further: shown.slice(mostDrawn).map((chain) => drawer.told(chain)),
		route: routeOf(rollout, door, depth),
		next: nextOf(depth)
	};
}

/** One person's page: the door and moment of its address, explained. */
export function personDoorView(rollout: Rollout, person: Person, search: URLSearchParams, now: LocalDateTime) {
	const door = rollout.doors.find(({ id }) => id === search.get('door'))?.id ?? null;
	const day = now.slice(0, 10) as LocalDate;
	const from = day < rollout.horizon.from || day > rollout.horizon.until ? rollout.horizon.from : day;
	const moment = momentOf(rollout, search.get('at'), from, person, door);
	return { door, moment, explained: door === null ? null : explainedView(rollout, person, door, moment) };
}

function nextOf({ explanation, nextReachable }: ExplainedAccess): ExplainedView['next'] {
	const isThere = explanation.allowed && explanation.route === null;
	const text = isThere ? nextReachable : explanation.allowed ? null : explanation.nextAllowed;
	if (text === null) return null;
	return { at: text.slice(0, 16), words: momentWords(text), canReach: text === nextReachable };
}

function routeOf(
	rollout: Rollout,
	door: string,
	{ explanation, missingDoors }: ExplainedAccess
): ExplainedView['route'] {
	const named = (id: string, opens: boolean) => ({ id, name: nameOf(rollout.doors, id), opens });
	if (explanation.route) return explanation.route.map((id) => named(id, true));
	if (!explanation.allowed) return [];
	return [...(missingDoors ?? []).map((id) => named(id, false)), named(door, true)];
}

const breakWords: Readonly<Record<Break, readonly [LinkRole, string]>> = {
	'assignment-not-in-force': ['assignment', 'not in force'],
	'door-not-granted': ['door group', 'lacks the door'],
	'schedule-not-valid': ['schedule', 'not valid then'],
	'holiday-undecided': ['hours', 'holiday not decided'],
	'holiday-closed': ['hours', 'closed on this holiday'],
	'schedule-closed': ['hours', 'closed then']
};

/** Draws the chains of one question. */
class ChainDrawer {
	constructor(
		readonly rollout: Rollout,
		readonly person: Person,
		readonly door: string,
		readonly at: LocalDateTime,
		readonly depth: ExplainedAccess
	) {}

	draw(chain: Chain): ExplainedChain {
		const { rollout } = this;
		const assignment = rollout.assignments.find(({ id }) => id === chain.assignment);
		const { doorGroup, schedule, stretch, date } = chain;
		const on = this.at.slice(0, 10);
		const holiday = rollout.holidays.days.find((day) => day.date === on);
		const hours = stretch?.replace('-', '–') ?? this.at.slice(11);
		const began = date === null ? (holiday?.name ?? dateWords(on as never)) : sinceWords(date, this.at);
		const isHoliday = chain.broken.some((one) => one.startsWith('holiday'));
		const hoursPath = isHoliday ? `holidays?date=${on}` : `schedules/${encodeURIComponent(schedule ?? '')}`;
		const links = [
			this.link('assignment', chain.assignment, assignment ? whoWords(assignment, rollout) : '', [
				'profiles?assignment=',
				chain.assignment,
				'#assignments'
			]),
			this.link('profile', nameOf(rollout.accessProfiles, chain.accessProfile), '', [
				'profiles?profile=',
				chain.accessProfile,
				'#profiles'
			]),
			...(doorGroup === null
				? [this.link('door group', 'no door group', '', ['profiles?profile=', chain.accessProfile, '#profiles'])]
				: [this.link('door group', nameOf(rollout.doorGroups, doorGroup), '', ['site?group=', doorGroup, '#groups'])]),
			...(schedule === null
				? []
				: [
						this.link('schedule', nameOf(rollout.schedules, schedule), '', ['schedules/', schedule, '']),
						{ ...this.link('hours', hours, began, ['', '', '']), path: hoursPath }
					])
		];
		const broken = new Map(chain.broken.map((one) => breakWords[one]));
		return { links: this.whole(links, broken), holds: this.holds(chain), detail: this.told(chain) };
	}

	/** The chain of somebody whom no assignment matches. */
	unmatched(): ExplainedChain {
		const none = { ...this.link('assignment', 'no assignment', '', ['', '', '']), path: 'profiles#assignments' };
		const detail = this.depth.explanation.blockedBy[0]?.detail ?? '';
		return { links: this.whole([none], new Map([['assignment', 'none matches']])), holds: false, detail };
	}

	/** Why a chain is broken. */
	told(chain: Chain): string {
		const { explanation } = this.depth;
		const [first] = explanation.blockedBy;
		if (first?.reason === 'not-employed' || first?.reason === 'no-route') return first.detail;
		const block = explanation.blockedBy.find(
			({ assignment, reason }) => assignment === chain.assignment && reason === chain.broken[0]
		);
		return block?.detail ?? '';
	}

	holds(chain: Chain): boolean {
		return chain.broken.length === 0 && this.depth.explanation.allowed && this.depth.explanation.route !== null;
	}

	link(role: LinkRole, name: string, note: string, [before, id, after]: [string, string, string]): ExplainedLink {
		return { role, name, note, path: `${before}${encodeURIComponent(id)}${after}`, broken: null, isBeyond: false };
	}

	/** Puts the person before and the door after, and the breaks where they are. */
	whole(links: readonly ExplainedLink[], broken: ReadonlyMap<LinkRole, string>): ExplainedLink[] {
		const { person, rollout, depth, door } = this;
		const reason = depth.explanation.blockedBy[0]?.reason;
		const all = [
			this.link('person', person.name ?? person.id, person.department ?? person.job ?? '', ['people/', person.id, '']),
			...links,
			this.link('door', nameOf(rollout.doors, door), '', ['site?door=', door, '#doors'])
		];
		let isBeyond = false;
		return all.map((link) => {
			const word =
				link.role === 'person' && reason === 'not-employed'
					? 'not employed then'
					: link.role === 'door' && reason === 'no-route'
						? 'cannot be reached'
						: (broken.get(link.role) ?? null);
			const drawn = { ...link, broken: word, isBeyond };
			isBeyond ||= word !== null;
			return drawn;
		});
	}
}
