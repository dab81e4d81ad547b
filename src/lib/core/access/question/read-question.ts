import { dateWords } from '../../calendar/date-words';
import { type LocalDate, epochDayOf } from '../../calendar/local-date';
import { type LocalDateTime, localDateTimeOf } from '../../calendar/local-date-time';
import { clockText } from '../../calendar/stretch';
import type { Rollout } from '../../document/schema';
import { type DateHeard, takeDate } from './date';
import { type NameHeard, type Named, type NamedKind, takePartial, takeQuoted, takeWhole, written } from './names';
import { type TimeHeard, takeTime } from './time-of-day';
import { type Part, Spoken } from './words';

/**
 * Reads a question in plain words: "who can open the cold room at 02:30 on 25 December?", "when can Ada Quill open Gate", "why
 * can't 1001 open Gate on New Year's Day". Nothing is guessed silently: what each part is read as is told, what was taken for
 * granted is told, and whatever could mean something else is offered or, where nothing decides, asked. Our own.
 */

/** What is asked: who may open it; whether and why one person may; when; which doors. */
export type QuestionKind = 'who' | 'why' | 'when' | 'what';

/** Other readings of a part, each as the whole question put so that it means only that. */
export interface Choice {
	readonly about: string;
	/** True where the question cannot be answered before one is chosen. */
	readonly isOpen: boolean;
	readonly options: readonly { readonly label: string; readonly question: string }[];
}

export interface ReadQuestion {
	readonly text: string;
	readonly kind: QuestionKind;
	readonly person: string | null;
	readonly door: string | null;
	readonly area: string | null;
	readonly department: string | null;
	readonly at: LocalDateTime;
	/** How each part was read. */
	readonly heard: readonly { readonly words: string; readonly as: string }[];
	/** What was taken for granted. */
	readonly assumed: readonly string[];
	readonly choices: readonly Choice[];
	/** Why it is not understood; empty where it is. */
	readonly faults: readonly string[];
	/** True when it can be answered as it is read. */
	readonly isReady: boolean;
}

/** Longer questions are not read. */
export const longestQuestion = 300;

/** Choices of one part that are offered at most. */
const mostOptions = 8;

/** Reads a question about a rollout, asked on a date. Never throws, whatever the text. */
export function readQuestion(rollout: Rollout, text: string, today: LocalDate): ReadQuestion {
	const reading = new Reading(rollout, text.slice(0, longestQuestion), today);
	if (text.trim() === '') return reading.refuse('Nothing is asked yet.');
	if (text.length > longestQuestion)
		return reading.refuse(`A question of more than ${longestQuestion} characters is not read.`);
	return reading.read();
}

class Reading {
	readonly #rollout: Rollout;
	readonly #spoken: Spoken;
	readonly #today: LocalDate;
	readonly #heard: { words: string; as: string; from: number }[] = [];
	readonly #assumed: string[] = [];
	readonly #choices: Choice[] = [];
	readonly #faults: string[] = [];

	constructor(rollout: Rollout, text: string, today: LocalDate) {
		this.#rollout = rollout;
		this.#spoken = new Spoken(text);
		this.#today = today;
	}

	read(): ReadQuestion {
		const spoken = this.#spoken;
		const quoted = takeQuoted(this.#rollout, spoken);
		for (const one of quoted.filter(({ found }) => found.length === 0)) {
			this.#faults.push(`Nothing of this rollout is called ${spoken.typed(one)}.`);
		}
		const words = questionWords(spoken);
		const whole = takeWhole(this.#rollout, spoken);
		const dates = { ...this.#rollout.horizon, today: this.#today };
		const date = takeDate(spoken, dates);
		const secondDate = date === null ? null : takeDate(spoken, dates);
		const time = takeTime(spoken);
		const secondTime = time === null ? null : takeTime(spoken);
		const partial = takePartial(this.#rollout, spoken);
		if (secondDate) this.#faults.push('Two dates are named: ask about one at a time.');
		if (secondTime) this.#faults.push('Two times are named: ask about one at a time.');

		const names = [...quoted, ...whole, ...partial]
			.filter(({ found }) => found.length > 0)
			.sort((a, b) => a.from - b.from);
		const holiday = this.#one(names, ['holiday'], words);
		const person = this.#one(names, ['person'], words);
		const target = this.#one(names, ['door', 'area'], words);
		const department = this.#one(names, ['department'], words);
		const day = this.#dateOf(date, holiday);
		const minute = this.#minuteOf(time, words.kind === 'when');
		this.#passedOver();

		const door = target?.kind === 'door' ? target.id : null;
		const area = target?.kind === 'area' ? target.id : null;
		const kind = this.#kindOf(words.kind, person, target);
		return this.#done({
			kind,
			person: person?.id ?? null,
			door,
			area,
			department: department?.id ?? null,
			day,
			minute
		});
	}

	refuse(fault: string): ReadQuestion {
		this.#faults.push(fault);
		const day = this.#usualDay();
		return this.#done({ kind: 'who', person: null, door: null, area: null, department: null, day, minute: 480 });
	}

	#done(
		asked: Pick<ReadQuestion, 'kind' | 'person' | 'door' | 'area' | 'department'> & { day: LocalDate; minute: number }
	) {
		const { day, minute, ...of } = asked;
		const isSettled = !this.#choices.some(({ isOpen }) => isOpen);
		return {
			text: this.#spoken.text,
			...of,
			at: localDateTimeOf({ day: epochDayOf(day), minute }),
			heard: this.#heard.sort((a, b) => a.from - b.from).map(({ words, as }) => ({ words, as })),
			assumed: this.#assumed,
			choices: this.#choices,
			faults: this.#faults,
			isReady: isSettled && this.#faults.length === 0
		};
	}

	/** The one thing of some kinds that the question names; null where none is, or it must be asked which. */
	#one(names: readonly NameHeard[], kinds: readonly NamedKind[], words: QuestionWords): Named | null {
		const meant = names.filter(
			({ found }) => found.some(({ kind }) => kinds.includes(kind)) && kinds.includes(kindMeant(found, words))
		);
		const [first, ...more] = meant;
		if (!first) return null;
		const about = this.#spoken.typed(first);
		const found = first.found.filter((one, place, all) => all.findIndex((other) => same(one, other)) === place);
		const [best] = found.filter(({ kind }) => kinds.includes(kind));
		if (!best) return null;
		if (more.length > 0) {
			const said = meant.map((one) => this.#spoken.typed(one)).join(' and ');
			this.#faults.push(`${said}: ask about one ${kinds.join(' or ')} at a time.`);
			return null;
		}
		const fits = found.filter((one) => one.words.length === best.words.length || one.id === about);
		const isCertain =
			first.match === 'exact'
				? fits.length === 1 || isWhole(best, about, fits)
				: first.match === 'part' && found.length === 1;
		const others = found.filter((one) => !same(one, best)).slice(0, mostOptions);
		if (!isCertain) {
			this.#offer(
				first,
				first.match === 'near' ? `Did you mean, by ${about}:` : `${about} may be any of these:`,
				true,
				found.slice(0, mostOptions)
			);
			if (found.length > mostOptions)
				this.#assumed.push(`${found.length - mostOptions} more things have ${about} in their name.`);
			return null;
		}
		this.#hear(
			first,
			`${best.kind === 'holiday' ? 'the holiday' : best.kind} ${best.label}${best.kind === 'person' && best.label !== best.id ? ` (${best.id})` : ''}`
		);
		if (others.length > 0) this.#offer(first, `${about} may also be:`, false, others);
		return best;
	}

	#offer(part: Part, about: string, isOpen: boolean, options: readonly Named[]): void {
		this.#choices.push({
			about,
			isOpen,
			options: options.map((one) => ({
				label:
					one.kind === 'area'
						? `area ${one.label}, by any door into it`
						: `${one.kind} ${one.label}${one.label === one.id ? '' : ` (${one.id})`}`,
				question: this.#spoken.instead(part, written(one))
			}))
		});
	}

	#hear(part: Part, as: string): void {
		this.#heard.push({ words: this.#spoken.typed(part), as, from: part.from });
	}

	#usualDay(): LocalDate {
		const { from, until } = this.#rollout.horizon;
		return this.#today >= from && this.#today <= until ? this.#today : from;
	}

	#dateOf(found: ReturnType<typeof takeDate>, holiday: Named | null): LocalDate {
		if (found !== null && 'fault' in found) this.#faults.push(found.fault);
		else if (found !== null) return this.#dateHeard(found);
		if (holiday) return this.#dateOfHoliday(holiday);
		const day = this.#usualDay();
		if (found === null)
			this.#assumed.push(
				`No date is named: ${day === this.#today ? 'today' : 'the first of the horizon'}, ${dateWords(day)}, is taken.`
			);
		return day;
	}

	#dateHeard(found: DateHeard): LocalDate {
		const options = found.others.map((date) => ({
			label: dateWords(date),
			question: this.#spoken.instead(found, ` ${date} `).replace(/ {2,}/g, ' ').trim()
		}));
		if (found.date === null) {
			this.#choices.push({ about: `${this.#spoken.typed(found)} may be any of these:`, isOpen: true, options });
			return found.others[0] ?? this.#usualDay();
		}
		this.#hear(found, dateWords(found.date));
		if (found.assumed !== null) this.#assumed.push(found.assumed);
		if (options.length > 0)
			this.#choices.push({
				about: `${this.#spoken.typed(found)} may also be:`,
				isOpen: false,
				options: options.slice(0, mostOptions)
			});
		return found.date;
	}

	/** Of a holiday that is listed on several dates the next from today on, else the first. */
	#dateOfHoliday({ id }: Named): LocalDate {
		const dates = [
			...new Set(this.#rollout.holidays.days.filter(({ name }) => name === id).map(({ date }) => date))
		].sort();
		const chosen = dates.find((date) => date >= this.#today) ?? dates[0] ?? this.#usualDay();
		this.#assumed.push(`${id} is ${dateWords(chosen)}.`);
		if (dates.length > 1) {
			const options = dates
				.filter((date) => date !== chosen)
				.map((date) => ({ label: dateWords(date), question: `${this.#spoken.text.replace(/\?\s*$/, '')} on ${date}` }));
			this.#choices.push({
				about: `${id} is listed on other dates too:`,
				isOpen: false,
				options: options.slice(0, mostOptions)
			});
		}
		return chosen;
	}

	#minuteOf(found: ReturnType<typeof takeTime>, isWhen: boolean): number {
		if (found !== null && 'fault' in found) this.#faults.push(found.fault);
		else if (found !== null) return this.#minuteHeard(found);
		else if (!isWhen) this.#assumed.push('No time is named: 08:00 is taken.');
		return isWhen ? 0 : 480;
	}

	#minuteHeard(found: TimeHeard): number {
		this.#hear(
			found,
			found.minute === 1440
				? '24:00, the end of the date'
				: `${clockText(found.minute)}${found.minute === 0 ? ', the beginning of the date' : ''}`
		);
		if (found.others.length > 0) {
			const lead = /^at /.test(this.#spoken.typed(found)) ? 'at ' : '';
			this.#choices.push({
				about: `${this.#spoken.typed(found)} may also be:`,
				isOpen: false,
				options: found.others.map((time) => ({
					label: time === '24:00' ? 'the midnight at the end of the date' : time,
					question: this.#spoken.instead(found, `${lead}${time}`)
				}))
			});
		}
		return found.minute;
	}

	/** Words that mean nothing known are told, and passed over. */
	#passedOver(): void {
		const left = this.#spoken
			.runs()
			.flat()
			.filter(({ text }) => !isQuestionWord(text));
		if (left.length > 0)
			this.#assumed.push(`Passed over, not understood: ${left.map((word) => this.#spoken.typed(word)).join(', ')}.`);
	}

	#kindOf(asked: QuestionKind | null, person: Named | null, target: Named | null): QuestionKind {
		const isOpen = this.#choices.some((choice) => choice.isOpen);
		if (!person && !target && !isOpen && this.#faults.length === 0) {
			this.#faults.push(
				'No door, area or person of this rollout is named. Say which, as in: who can open the front door at 06:00 on 4 January?'
			);
		}
		if (person && target) {
			if (target.kind === 'area') this.#askDoor(target);
			return asked === 'when' ? 'when' : 'why';
		}
		if (person) return 'what';
		if (asked === 'when' && !isOpen && target)
			this.#assumed.push('Nobody is named: who may open it is answered, at one moment.');
		return 'who';
	}

	/** One person and an area: by which door is asked, unless there is one only. */
	#askDoor(area: Named): void {
		const doors = this.#rollout.doors.filter(({ to }) => to === area.id);
		const part = { from: this.#spoken.text.length, to: this.#spoken.text.length };
		if (doors.length === 0) this.#faults.push(`No door leads into ${area.label}.`);
		else {
			const options = doors.slice(0, mostOptions).map(({ id, name }) => ({
				label: name ?? id,
				question: this.#instead(area, `door "${id}"`) ?? this.#spoken.instead(part, ` door "${id}"`)
			}));
			this.#choices.push({ about: `${area.label} is an area; by which door?`, isOpen: true, options });
		}
	}

	/** The question with other words where a thing was heard. */
	#instead(named: Named, words: string): string | null {
		const heard = this.#heard.find(({ as }) => as === `${named.kind} ${named.label}`);
		return heard ? this.#spoken.instead({ from: heard.from, to: heard.from + heard.words.length }, words) : null;
	}
}

interface QuestionWords {
	readonly kind: QuestionKind | null;
	/** True where people of a department are asked about: `who in Packing`. */
	readonly isOfDepartment: boolean;
}

function questionWords({ left }: Spoken): QuestionWords {
	const first = /\b(who|when|why|what|which|where)\b/.exec(left)?.[1];
	const kinds: Readonly<Record<string, QuestionKind>> = {
		who: 'who',
		when: 'when',
		why: 'why',
		what: 'what',
		which: 'what',
		where: 'what'
	};
	return {
		kind: kinds[first ?? ''] ?? null,
		isOfDepartment: /\b(who|people|anybody|anyone|somebody|everybody|everyone) (in|of|from) /.test(left)
	};
}

/** Which kind a part means that could be of several: a holiday by its whole name, a department where people of one are asked about. */
function kindMeant(found: readonly Named[], { isOfDepartment }: QuestionWords): NamedKind {
	const kinds = new Set(found.map(({ kind }) => kind));
	if (isOfDepartment && kinds.has('department')) return 'department';
	return found[0]?.kind ?? 'door';
}

/** True where one candidate is called exactly so, word for word, and the others are not. */
function isWhole(best: Named, about: string, fits: readonly Named[]): boolean {
	const typed = about.toLowerCase();
	const called = (one: Named) => one.label.toLowerCase() === typed || one.id.toLowerCase() === typed;
	return called(best) && fits.filter(called).length === 1;
}

function same(a: Named, b: Named): boolean {
	return a.kind === b.kind && a.id === b.id;
}

function isQuestionWord(word: string): boolean {
	return word.length < 2 || ignored.has(word);
}

const ignored = new Set(
	`who whom when why what which where can cannot cant could may might does doesnt do did is isnt are be able not open opens opened
	opening the an at on in into to of from for by and or through via door doors area get gets go goes enter reach use allowed have has
	with please tell me show list all any anybody anyone somebody someone everybody everyone people person they he she them him her it
	then there that this next day date time oclock access will wont would should unlock inside if during let see`.split(
		/\s+/
	)
);
