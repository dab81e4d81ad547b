import { type Weekday, weekdays } from '../../calendar/local-date';
import { counted, listed } from '../../document/names';
import type { Treatment } from '../../document/schema';
import { remembered } from '../../kernel/remembered';
import type { ScheduleChange } from './cover-schedule';

/** Sentences' parts that several ways to mend share. */

const dayNames: Readonly<Record<Weekday, string>> = {
	mon: 'Monday',
	tue: 'Tuesday',
	wed: 'Wednesday',
	thu: 'Thursday',
	fri: 'Friday',
	sat: 'Saturday',
	sun: 'Sunday'
};

/** Stretches as people say them: `05:30-22:30`, `00:00-02:30 and 17:30-24:00`, `closed`. */
export function stretchesWords(stretches: readonly string[]): string {
	return stretches.length === 0 ? 'closed' : listed([...stretches], 4);
}

/** What a schedule does on a kind of holiday: `open 00:00-06:00 on public holidays`. */
export function treatmentWords(kind: string, treatment: Treatment): string {
	return `${openWords(treatment)} on ${kind} holidays`;
}

function openWords(treatment: Treatment): string {
	if (treatment === 'normal') return 'open as on an ordinary day';
	return treatment === 'closed' || treatment.length === 0 ? 'closed' : `open ${stretchesWords(treatment)}`;
}

/** What changes in a schedule: `open 04:45-22:30 on Monday to Friday and worked holidays`. */
export function changeWords({ week, holidays, from, until }: ScheduleChange): string {
	const whenByText = new Map<string, { days: Weekday[]; kinds: string[] }>();
	const note = (text: string) => remembered(whenByText, text, () => ({ days: [], kinds: [] }));
	for (const day of weekdays) {
		const list = week[day];
		if (list) note(list.length === 0 ? 'without stretches of its own' : `open ${stretchesWords(list)}`).days.push(day);
	}
	for (const [kind, treatment] of holidays) note(openWords(treatment)).kinds.push(kind);
	return listed(
		[
			...[...whenByText].map(([text, { days, kinds }]) => {
				const when = [
					...(days.length > 0 ? [daysWords(days)] : []),
					...(kinds.length > 0 ? [`${listed(kinds, 9)} holidays`] : [])
				];
				return `${text} on ${listed(when)}`;
			}),
			...(from === undefined ? [] : [`valid from ${String(from)}`]),
			...(until === undefined ? [] : [`valid until ${until}`])
		],
		9
	);
}

/** `Monday to Friday`, `Monday and Thursday`, `every day`. */
export function daysWords(days: readonly Weekday[]): string {
	const places = days.map((day) => weekdays.indexOf(day)).sort((a, b) => a - b);
	if (places.length === 7) return 'every day';
	const [first, last] = [places[0] ?? 0, places.at(-1) ?? 0];
	const isRun = places.length > 2 && last - first === places.length - 1;
	const nameAt = (place: number) => dayNames[weekdays[place] as Weekday];
	return isRun ? `${nameAt(first)} to ${nameAt(last)}` : listed(places.map(nameAt), 7);
}

/** Minutes as people say them: `45 min`, `1,103 h 30 min`. */
export function durationWords(minutes: number): string {
	const hours = Math.floor(minutes / 60);
	const rest = Math.round((minutes - hours * 60) * 10) / 10;
	const parts = [
		...(hours > 0 ? [`${String(hours).replace(/\B(?=(\d{3})+$)/g, ',')} h`] : []),
		...(rest > 0 || hours === 0 ? [`${rest} min`] : [])
	];
	return parts.join(' ');
}

/** What is gained and lost: `gains 13 h`, `lose 2 h`; `isOne`: of one person. */
export function minutesWords({ gained, lost }: { gained: number; lost: number }, isOne: boolean): string {
	const s = isOne ? 's' : '';
	const parts = [
		...(gained > 0 ? [`gain${s} ${durationWords(gained)}`] : []),
		...(lost > 0 ? [`lose${s} ${durationWords(lost)}`] : [])
	];
	return parts.join(' and ');
}

/** A sum over people, doors and the horizon: `gain 1,170 h at 9 doors, summed over doors and the horizon`. */
export function sumWords(
	{ doors, gained, lost }: { doors: number; gained: number; lost: number },
	isOne: boolean
): string {
	const over = isOne ? '' : 'people, ';
	const sum = doors === 1 ? `summed over ${over}the horizon` : `summed over ${over}doors and the horizon`;
	return `${minutesWords({ gained, lost }, isOne)} at ${counted(doors, 'door')}, ${sum.replace(', the', ' and the')}`;
}
