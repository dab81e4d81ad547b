import { matchingAssignments } from '../../access/matching';
import { type EpochDay, dateOf, epochDayOf, plusDays } from '../../calendar/local-date';
import { Zone } from '../../calendar/zone';
import { counted, nameOf } from '../../document/names';
import type { AccessProfile, Assignment, Rollout } from '../../document/schema';
import { pathOf } from '../../kernel/fault';
import { remembered } from '../../kernel/remembered';
import { type ReportItem, reported } from './report';
import type { AccessPolicy, Credential, CredentialAccessProfile, OpenAccessProfile } from './shapes';
import { Tokens, nameFields } from './tokens';

/** First and last day of a period, both included; infinite where there is no limit. */
interface Period {
	readonly from: number;
	readonly until: number;
}

/**
 * Access profiles with a policy for each access point and schedule, and a credential for each person: what assignments give by
 * department, job or wave is written out for everybody matched. Periods of one profile are united where they touch; for a further
 * one there is a copy of the profile.
 */
export function openProfilesAndCredentials(
	rollout: Rollout,
	report: ReportItem[]
): { readonly profiles: readonly OpenAccessProfile[]; readonly credentials: readonly Credential[] } {
	const policies = policiesOf(rollout, report);
	const tokens = new Tokens();
	for (const { id } of rollout.accessProfiles) tokens.take(id);
	const copies = new Map<string, string[]>();
	const zone = zoneOf(rollout);
	const matching = matchingAssignments(rollout);
	const matched = rollout.assignments.map(() => 0);
	const shownAgain = new Set<EpochDay>();

	const credentials = rollout.people.map((person): Credential => {
		const periods = new Map<string, Period[]>();
		for (const place of matching(person)) {
			const assignment = rollout.assignments[place] as Assignment;
			matched[place] = (matched[place] ?? 0) + 1;
			remembered(periods, assignment.accessProfile, () => []).push(periodOf(assignment.from, assignment.until));
		}
		const given = [...periods].flatMap(([profile, list]) =>
			united(list).map((period, place): CredentialAccessProfile => ({
				AccessProfileToken: tokenOf(profile, place),
				...limitsOf(period)
			}))
		);
		return {
			token: person.id,
			CredentialHolderReference: person.id,
			...limitsOf(periodOf(person.startsOn, person.leavesOn)),
			CredentialAccessProfile: given
		};
	});

	const profiles = rollout.accessProfiles.flatMap((profile, place): OpenAccessProfile[] => {
		const path = pathOf(['accessProfiles', place]);
		const names = nameFields(nameOf(rollout.accessProfiles, profile.id), `${path}.name`, report);
		const more = copies.get(profile.id) ?? [];
		if (more.length > 0) report.push(reported('profile-copied', path, `${profile.id} also as ${more.join(', ')}`));
		return [profile.id, ...more].map((token) => ({ token, ...names, AccessPolicy: policies.get(profile.id) ?? [] }));
	});
	reportAssignments(rollout, matched, report);
	const limited = credentials.flatMap((one) => [one, ...one.CredentialAccessProfile]);
	if (limited.some(({ ValidFrom, ValidTo }) => ValidFrom !== undefined || ValidTo !== undefined))
		report.push(reported('date-limits', '$', 'ValidFrom and ValidTo of credentials and of their access profiles'));
	if (shownAgain.size > 0) {
		const dates = [...shownAgain].sort((a, b) => a - b).map(dateOf);
		report.push(reported('clock-change', '$', 'a limit at a midnight that the clock shows twice', { dates }));
	}
	if (credentials.length > 0) {
		report.push(reported('identifier-missing', '$.people', counted(credentials.length, 'credential')));
	}
	return { profiles, credentials };

	function tokenOf(profile: string, place: number): string {
		if (place === 0) return profile;
		const known = remembered(copies, profile, () => []);
		while (known.length < place) known.push(tokens.take(`${profile}.${known.length + 2}`));
		return known[place - 1] as string;
	}

	function limitsOf({ from, until }: Period): { ValidFrom?: string; ValidTo?: string } {
		const [isFrom, isUntil] = [Number.isFinite(from), Number.isFinite(until)];
		return {
			...(isFrom ? { ValidFrom: textOfMidnight(from as EpochDay) } : {}),
			...(isUntil ? { ValidTo: textOfMidnight(plusDays(until as EpochDay, 1)) } : {})
		};
	}

	/** The first instant of a date. A clock turned back past it shows the date before again, which one instant cannot tell apart. */
	function textOfMidnight(day: EpochDay): string {
		const midnight = zone.midnightOf(day);
		const before = plusDays(day, -1);
		const last = zone.spansOfDates(before, before).at(-1);
		if (last && last.to > midnight) shownAgain.add(before).add(day);
		return zone.textOf(midnight);
	}
}

/** A zone that knows every date of a limit. */
function zoneOf(rollout: Rollout): Zone {
	const limits = [
		...rollout.people.flatMap(({ startsOn, leavesOn }) => [startsOn, leavesOn]),
		...rollout.assignments.flatMap(({ from, until }) => [from, until])
	];
	let [first, last] = [epochDayOf(rollout.horizon.from), epochDayOf(rollout.horizon.until)];
	for (const limit of limits) {
		if (limit === null) continue;
		const day = epochDayOf(limit);
		if (day < first) first = day;
		if (day > last) last = day;
	}
	return new Zone(rollout.site.timeZone, plusDays(first, -2), plusDays(last, 2));
}

function periodOf(from: Assignment['from'], until: Assignment['until']): Period {
	return { from: from === null ? -Infinity : epochDayOf(from), until: until === null ? Infinity : epochDayOf(until) };
}

/** Periods in order, those that overlap or follow each other made one. */
function united(periods: readonly Period[]): Period[] {
	const all: Period[] = [];
	for (const period of periods.toSorted((a, b) => a.from - b.from)) {
		const last = all.at(-1);
		if (last && period.from <= last.until + 1) {
			all[all.length - 1] = { from: last.from, until: Math.max(last.until, period.until) };
		} else all.push(period);
	}
	return all;
}

/** The policies of each profile, each pair of access point and schedule once. */
function policiesOf(rollout: Rollout, report: ReportItem[]): ReadonlyMap<string, readonly AccessPolicy[]> {
	const points = new Tokens();
	for (const { id } of rollout.doors) points.take(id);
	const pointsByDoor = new Map<string, string[]>();
	rollout.doors.forEach(({ id, exit }, place) => {
		if (exit === 'free') {
			pointsByDoor.set(id, [id]);
			return;
		}
		const way = points.take(`${id}.exit`);
		pointsByDoor.set(id, [id, way]);
		report.push(reported('exit-reader', pathOf(['doors', place, 'exit']), `${id} in, ${way} out`));
	});
	const groupById = new Map(rollout.doorGroups.map((group) => [group.id, group]));
	const policiesOfProfile = ({ entries }: AccessProfile): AccessPolicy[] => {
		const byPair = new Map<string, AccessPolicy>();
		for (const { doorGroup, schedule } of entries) {
			for (const door of groupById.get(doorGroup)?.doors ?? []) {
				for (const Entity of pointsByDoor.get(door) ?? []) {
					byPair.set(JSON.stringify([schedule, Entity]), { ScheduleToken: schedule, Entity });
				}
			}
		}
		return [...byPair.values()];
	};
	return new Map(rollout.accessProfiles.map((profile) => [profile.id, policiesOfProfile(profile)]));
}

function reportAssignments({ assignments }: Rollout, matched: readonly number[], report: ReportItem[]): void {
	assignments.forEach(({ id, who }, place) => {
		const path = pathOf(['assignments', place, 'who']);
		const count = matched[place] ?? 0;
		if (count === 0) {
			report.push(reported('assignment-of-nobody', path, id));
			return;
		}
		const isByName = !who.everyone && who.departments.length + who.jobs.length + who.waves.length === 0;
		if (!isByName) report.push(reported('assignment-expanded', path, `${id}: ${counted(count, 'credential')}`));
	});
}
