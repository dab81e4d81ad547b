import type { ToldGroup, ToldGroups, ToldTimes } from '../../access/told-groups';
import { counted } from '../../document/names';

/** More are not read by anybody at a terminal. */
const mostShown = 30;

/** Groups of changes for a person: the figures, then each group with when it gains and loses. */
export function groupsText({ total, groups, rest }: ToldGroups): string {
	if (groups.length === 0) return 'Nobody gains and nobody loses a minute at any door.';
	const figures = `${counted(total.people, 'person', 'people')} affected at ${counted(total.doors, 'door')}: ${total.lose} lose and ${total.gain} gain. Losses come first.`;
	const more = Math.max(0, groups.length - mostShown) + (rest?.groups ?? 0);
	return [
		figures,
		...groups.slice(0, mostShown).map(groupText),
		...(more > 0 ? [`… and ${counted(more, 'further group')}; compare with --json lists every person and door.`] : [])
	].join('\n\n');
}

function groupText({ who, where, lost, gained, ways }: ToldGroup): string {
	const lines = [`${who} · ${where}`];
	if (lost) lines.push(...timesLines('lose', lost));
	if (gained) lines.push(...timesLines('gain', gained));
	if (ways > 1) lines.push(`  in ${ways} ways, by when they start or leave`);
	return lines.join('\n');
}

function timesLines(does: string, { least, most, when }: ToldTimes): string[] {
	const minutes = least === most ? minutesText(most) : `${minutesText(least)} to ${minutesText(most)}`;
	return [`  ${does} ${minutes} minutes each at each door`, ...when.map((clause) => `    ${clause}`)];
}

function minutesText(minutes: number): string {
	return String(Math.round(minutes * 100) / 100);
}
