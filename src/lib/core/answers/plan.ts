import { z } from 'zod';
import { counted, listed, personName } from '../document/names';
import type { Rollout } from '../document/schema';
import { amount, whole } from '../document/fields';
import { planEnrollment, type EnrollmentPlan, type UnbookedReason } from '../enrollment/plan';
import type { Shortfall, Together } from '../enrollment/shortfalls';
import { ok } from '../kernel/result';
import { textTable } from '../kernel/text-table';
import { defineAnswer } from './define-answer';

const params = z.strictObject({
	seconds: amount(0)
		.default(10)
		.describe('Seconds after which it stops improving; sooner when the plan is proven optimal'),
	seed: whole().default(1).describe('Same seed and finished work, same plan')
});

export default defineAnswer<{ seconds: number; seed: number }, EnrollmentPlan>({
	name: 'plan',
	summary: 'Plans when everybody is enrolled at which station, and proves why somebody cannot be.',
	params,
	run: (rollout, options, work) => Promise.resolve(ok(planEnrollment(rollout, options, work))),
	isLong: true,
	isBad: ({ unbooked }) => unbooked.length > 0,
	text
});

/** Why somebody is not booked, in words. */
export const unbookedWords: Readonly<Record<UnbookedReason, string>> = {
	declined: 'consent declined or withdrawn: they need another credential',
	'no-common-time': 'no start fits at all',
	'station-time': 'too little station time',
	'away-limit': 'an away-limit',
	unproven: 'no room found, and no proof that there is none'
};

const mostShown = 10;

function text(plan: EnrollmentPlan, rollout: Rollout): string {
	return [summaryOf(plan), ...tablesOf(plan), ...unbookedTexts(plan, rollout), ...shortfallTexts(plan, rollout)].join(
		'\n\n'
	);
}

function summaryOf({ bookings, sessions, bounds, optimal }: EnrollmentPlan): string {
	const booked = `${counted(bookings.length, 'person', 'people')} booked in ${counted(sessions.length, 'session')}.`;
	if (optimal) return `${booked} No plan is better.`;
	const most = bounds.bookable > bookings.length ? `at most ${bounds.bookable} could be` : 'no plan books more';
	const fewest =
		bounds.sessions < sessions.length
			? `at least ${counted(bounds.sessions, 'session')} are needed`
			: 'no plan has fewer sessions';
	return `${booked} Proven: ${most}; ${fewest}.`;
}

function tablesOf({ sessions }: EnrollmentPlan): string[] {
	if (sessions.length === 0) return [];
	const rows = sessions.map((one) => [
		one.date,
		one.at,
		one.station,
		String(one.lane),
		String(one.people),
		String(one.busyMinutes)
	]);
	const columns = ['Date', 'Open', 'Station', 'Lane', 'People', 'Minutes'].map((heading) => ({ heading }));
	return [textTable(columns, rows)];
}

function unbookedTexts({ unbooked }: EnrollmentPlan, rollout: Rollout): string[] {
	if (unbooked.length === 0) return [];
	const lines = Object.entries(unbookedWords).flatMap(([reason, words]) => {
		const names = unbooked.filter((one) => one.reason === reason).map(({ person }) => personName(rollout, person));
		return names.length === 0 ? [] : [`  ${names.length}, ${words}: ${listed(names, mostShown)}`];
	});
	return [['Not booked:', ...lines].join('\n')];
}

function shortfallTexts(plan: EnrollmentPlan, rollout: Rollout): string[] {
	const { shortfalls } = plan;
	if (shortfalls.length === 0) return [];
	const lines = shortfalls
		.slice(0, mostShown)
		.map((one) => `  ${shortfallSentence(one, rollout)} ${remedySentence(one)}`.trimEnd());
	const more = shortfalls.length - lines.length;
	const rest = more > 0 ? [`  … and ${more} more; --json lists all`] : [];
	return [['Why:', ...lines, ...rest].join('\n'), ...(plan.together ? [togetherText(plan.together)] : [])];
}

function togetherText({ people, remedy }: Together): string {
	const changes = remedy.does.split('; ').map((one) => `  ${one}`);
	return [`To book ${counted(people.length, 'more person', 'more people')} (cost ${remedy.cost}):`, ...changes].join(
		'\n'
	);
}

/** The proof of a shortfall as one sentence. */
export function shortfallSentence(shortfall: Shortfall, rollout: Rollout): string {
	const who = listed(shortfall.people.map((person) => personName(rollout, person)));
	const needed = `need ${shortfall.neededMinutes} minutes, and there are ${shortfall.availableMinutes}`;
	switch (shortfall.kind) {
		case 'no-common-time':
			return `${who}: no station is open to them at a time when they are free.`;
		case 'station-time':
			return `${who} (${shortfall.people.length}) together ${needed} at the stations that they could use.`;
		case 'away-limit':
			return `${who} (${shortfall.people.length}) of ${shortfall.department ?? ''} ${needed} under the away-limit.`;
	}
}

/** What would help, or why nothing does; empty where it was not looked for. */
function remedySentence({ remedies, noRemedy }: Shortfall): string {
	if (remedies.length === 0) return noRemedy ?? '';
	const named = remedies.slice(0, 3).map(({ does, cost }) => `${does} (cost ${cost})`);
	return `Any one of these would do: ${named.join(' / ')}.`;
}
