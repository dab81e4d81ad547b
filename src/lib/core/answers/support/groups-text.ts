import type { ToldGroup, ToldGroups, ToldTimes } from '../../access/told-groups';
import { counted } from '../../document/names';

/** More are not read by anybody at a terminal. */
const mostShown = 30;

/** Groups of changes for a person: the figures, then each group with when it gains and loses. */
export function groupsText({ total, groups }: ToldGroups): string {
	if (groups.length === 0) return 'Nobody gains and nobody loses a minute at any door.';
	const figures = `${counted(total.people, 'person', 'people')} affected at ${counted(total.doors, 'door')}: ${total.lose} lose and ${total.gain} gain. Losses come first.`;
	const more = groups.length - mostShown;
	return [
		figures,
		...groups.slice(0, mostShown).map(groupText),
		...(more > 0 ? [`… and ${counted(more, 'further group')}; --json lists all.`] : [])
	].join('\n\n');
}

function groupText({ who, where, lost, gained, variants }: ToldGroup): string {
	const lines = [`${who} · ${where}`];
	if (lost) lines.push(...timesLines('lose', lost));
	if (gained) lines.push(...timesLines('gain', gained));
	if (variants.length > 1) lines.push(`  in ${variants.length} ways, by when they start or leave`);
	return lines.join('\n');
}

function timesLines(does: string, { least, most, when }: ToldTimes): string[] {
	const minutes = least === most ? minutesText(most) : `${minutesText(least)} to ${minutesText(most)}`;
	return [`  ${does} ${minutes} minutes each at each door`, ...when.map((clause) => `    ${clause}`)];
}

function minutesText(minutes: number): string {
	return String(Math.round(minutes * 100) / 100);
}
