import type { MarkState } from '$lib/components/sheet/mark';
import type { LocalDate } from '$lib/core/calendar/local-date';
import type { FigureKey } from '$lib/components/sheet/sheets';
import check from '$lib/core/answers/check';
import retention from '$lib/core/answers/retention';
import type { Forecast } from '$lib/core/enrollment/forecast/forecast';
import { standingByPerson } from '$lib/core/enrollment/standing';
import { requestsOn } from '$lib/core/privacy/requests';
import { ask } from './answers';
import { todayAt } from './clock';
import { cloudsOf } from './clouds';
import type { OpenRollout } from './open-rollouts';
import { directoryProposal } from './scim/takeover';
import { listTokens } from './scim/tokens';
import { getProposal, listProposals } from './proposals';

/** How a sheet stands, in a word or two. */
export interface Figure {
	readonly text: string;
	readonly state?: MarkState;
}

export type Figures = Partial<Readonly<Record<FigureKey, Figure>>>;

/** The one figure of each sheet in the index. */
export async function figuresOf(open: OpenRollout): Promise<Figures> {
	const { rollout } = open;
	const today = todayAt(rollout.site.timeZone);
	const [found, kept] = await Promise.all([ask(open, check, {}), ask(open, retention, { on: today })]);
	const overdue = kept.ok ? kept.value.templates.filter(({ state }) => state === 'overdue').length : 0;
	const problems = kept.ok ? kept.value.consentProblems.length : 0;
	const isEmpty = rollout.people.length === 0;
	return {
		site: counted(rollout.doors.length, 'door'),
		people: counted(rollout.people.length, 'person', 'people'),
		...identityFigure(open),
		schedules: counted(rollout.schedules.length, 'schedule'),
		holidays: counted(rollout.holidays.days.length, 'day'),
		stations: counted(rollout.enrollment.stations.length, 'station'),
		findings: found.ok ? findingsFigure(found.value.counts) : { text: 'unreadable', state: 'fails' },
		// Nothing is in order where nobody is: the sheets that stand on people say nothing until there are some.
		...(isEmpty
			? {}
			: {
					plan: bookingsFigure(open, today),
					...forecastFigure(open),
					consent:
						problems > 0 ? { text: `${problems} to put right`, state: 'fails' } : { text: 'in order', state: 'holds' },
					retention:
						overdue > 0 ? { text: `${overdue} overdue`, state: 'fails' } : { text: 'none overdue', state: 'holds' }
				}),
		...requestsFigure(open, today),
		...(rollout.enrollment.visits.length === 0
			? {}
			: { stationTime: counted(rollout.enrollment.visits.length, 'visit') }),
		...changesFigure(open),
		changes: counted(open.lastChange, 'change')
	};
}

/** The date by which 80 of 100 futures are done, by the latest forecast. */
function forecastFigure(open: OpenRollout): Figures {
	const latest = listProposals(open.id).find(({ answer }) => answer === 'outlook');
	const found = latest && getProposal(open.id, latest.number);
	if (!latest || !found?.ok) return {};
	const { p80 } = (found.value.value as Pick<Forecast, 'finish'>).finish;
	if (latest.revision !== open.revision) return { forecast: { text: 'outdated', state: 'watch' } };
	return { forecast: p80 === null ? { text: 'no end in sight', state: 'fails' } : { text: `P80 ${p80.slice(5)}` } };
}

/** What an identity provider sent and nobody decided about yet; nothing where there is no token. */
function identityFigure(open: OpenRollout): Figures {
	if (listTokens(open.id).length === 0) return {};
	const { joined, moved, left } = directoryProposal(open).changes;
	const count = joined.length + moved.length + left.length;
	return { identity: count === 0 ? { text: 'nothing new' } : { text: `${count} proposed`, state: 'watch' } };
}

/** Requests of persons that wait for an answer; nothing where there was none yet. */
function requestsFigure({ rollout }: OpenRollout, today: LocalDate): Figures {
	if (rollout.privacy.requests.length === 0) return {};
	const waiting = requestsOn(rollout, today).filter(({ state }) => state !== 'answered');
	const overdue = waiting.filter(({ state }) => state === 'overdue').length;
	if (overdue > 0) return { requests: { text: `${overdue} overdue`, state: 'fails' } };
	if (waiting.length > 0) return { requests: { text: `${waiting.length} to answer`, state: 'watch' } };
	return { requests: { text: 'all answered', state: 'holds' } };
}

/** How many entries differ from what was last issued. */
function changesFigure(open: OpenRollout): Figures {
	const clouds = cloudsOf(open);
	if (clouds === null) return {};
	return { compare: { text: clouds.isIssued ? `as ${clouds.letter}` : `${clouds.count} since ${clouds.letter}` } };
}

function counted(count: number, one: string, many = `${one}s`): Figure {
	return { text: `${count} ${count === 1 ? one : many}` };
}

function findingsFigure(counts: { error: number; warning: number; note: number }): Figure {
	if (counts.error > 0) return { text: `${counts.error} fail`, state: 'fails' };
	if (counts.warning > 0) return { text: `${counts.warning} to watch`, state: 'watch' };
	return { text: 'none fail', state: 'holds' };
}

/** People who still need a booking: to be booked by their standing, not gone, in no booking. */
function bookingsFigure({ rollout }: OpenRollout, today: string): Figure {
	const booked = new Set(rollout.enrollment.bookings.map(({ person }) => person));
	const standings = standingByPerson(rollout);
	const open = rollout.people.filter(
		({ id, leavesOn }) => standings.get(id) === 'to-book' && !booked.has(id) && (leavesOn === null || leavesOn >= today)
	).length;
	return open > 0 ? { text: `${open} not booked`, state: 'watch' } : { text: 'all booked', state: 'holds' };
}
