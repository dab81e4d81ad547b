import { type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import type { Request, Rollout } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import { packsOf } from './packs-of';
import { responseDeadline } from './response-deadline';
import { officialWorkingDays } from './working-days';

/** By when a request is answered under one rule: of a pack, or the site's own days. */
export interface RequestDate {
	/** Id of the pack, or `site`. */
	readonly pack: string;
	readonly title: string;
	/** Where the period itself ends, and the working day that it moves to. */
	readonly endsOn: LocalDate;
	readonly dueOn: LocalDate;
	/** The working day on which it ends once it was extended in time; null where no extension is known. */
	readonly extendedTo: LocalDate | null;
	readonly source: string;
}

export type RequestState = 'answered' | 'overdue' | 'due' | 'open' | 'no-date';

export type RequestProblemCode =
	'identity-unchecked' | 'extension-late' | 'extension-unknown' | 'answered-late' | 'no-date' | 'holidays-unknown';

/** How a request stands on a day. */
export interface RequestStanding {
	readonly request: Request;
	readonly state: RequestState;
	/** Every date that counts, the governing one first. */
	readonly dates: readonly RequestDate[];
	/** By when it is answered, an extension told in time counted; null where neither law nor site gives a date. */
	readonly dueOn: LocalDate | null;
	/** By when the person must be told of an extension; null where none is known. */
	readonly extendBy: LocalDate | null;
	readonly isExtended: boolean;
	/** Days from the day asked about to the due date, negative when it is past; null where there is none, or it was answered. */
	readonly daysLeft: number | null;
	readonly why: string;
	readonly problems: readonly { readonly code: RequestProblemCode; readonly message: string }[];
}

/** A request is due from this many days before its date. */
export const requestDaysDue = 7;

/**
 * Every request of persons as it stands on a day, those overdue first, then by due date. The day of receipt is not counted; the
 * strictest rule governs. An extension counts only where the person was told of it within the first period.
 * @source Regulation (EEC, Euratom) 1182/71, article 3; Regulation (EU) 2016/679, article 12(3); UK: see `responseDeadline`
 */
export function requestsOn(rollout: Rollout, on: LocalDate): RequestStanding[] {
	const order: readonly RequestState[] = ['overdue', 'due', 'open', 'no-date', 'answered'];
	return rollout.privacy.requests
		.map((request) => requestStanding(rollout, request, on))
		.sort(
			(a, b) =>
				order.indexOf(a.state) - order.indexOf(b.state) ||
				byCodeUnits(a.dueOn ?? '~', b.dueOn ?? '~') ||
				byCodeUnits(a.request.receivedOn, b.request.receivedOn)
		);
}

/** As `requestsOn`, of one request. */
export function requestStanding(rollout: Rollout, request: Request, on: LocalDate): RequestStanding {
	const dates = requestDates(rollout, request.receivedOn);
	const governing = dates[0];
	const { extendedOn } = request;
	const isInTime = governing !== undefined && extendedOn !== null && extendedOn <= governing.dueOn;
	// What limits the extended answer is the strictest of the extended dates, and of those that know no extension.
	const extended = dates.flatMap(({ extendedTo }) => (extendedTo === null ? [] : [extendedTo])).sort();
	const cannotExtend = dates.some(({ extendedTo, pack }) => extendedTo === null && pack !== 'site');
	const isExtended = isInTime && extended.length > 0 && !cannotExtend;
	const dueOn = governing === undefined ? null : isExtended ? (extended[0] ?? governing.dueOn) : governing.dueOn;
	const isAnswered = request.answeredOn !== null && request.answeredOn <= on;
	const days = dueOn === null ? null : epochDayOf(dueOn) - epochDayOf(on);
	const state: RequestState = isAnswered
		? 'answered'
		: days === null
			? 'no-date'
			: days < 0
				? 'overdue'
				: days <= requestDaysDue
					? 'due'
					: 'open';
	const facts = { isInTime, isExtended, isAnswered, dueOn, governing };
	return {
		request,
		state,
		dates,
		dueOn,
		extendBy: governing !== undefined && extended.length > 0 && !cannotExtend ? governing.dueOn : null,
		isExtended,
		daysLeft: isAnswered ? null : days,
		why: whyOf(request, governing, facts),
		problems: problemsOf(rollout, request, facts)
	};
}

/** The dates by which a request received on a day is answered, the strictest first; empty where nothing gives one. */
export function requestDates(rollout: Rollout, receivedOn: LocalDate): RequestDate[] {
	const isWorkingDay = officialWorkingDays(rollout.holidays.days);
	const days = rollout.privacy.office?.answerWithinDays ?? null;
	const own = days === null ? null : dateOf(plusDays(epochDayOf(receivedOn), days));
	const ofPacks = packsOf(rollout.privacy).flatMap(({ id, title, response }): RequestDate[] => {
		if (response === null) return [];
		const { endsOn, dueOn, extended } = responseDeadline(response, receivedOn, isWorkingDay);
		return [{ pack: id, title, endsOn, dueOn, extendedTo: extended?.dueOn ?? null, source: response.source }];
	});
	const ofSite: RequestDate[] =
		own === null
			? []
			: [
					{
						pack: 'site',
						title: `Within ${days} days, as the site sets it`,
						endsOn: own,
						dueOn: own,
						extendedTo: null,
						source: 'privacy.office of the rollout'
					}
				];
	return [...ofPacks, ...ofSite].sort((a, b) => byCodeUnits(a.dueOn, b.dueOn));
}

interface Facts {
	readonly isInTime: boolean;
	readonly isExtended: boolean;
	readonly isAnswered: boolean;
	readonly dueOn: LocalDate | null;
	readonly governing: RequestDate | undefined;
}

function whyOf(request: Request, governing: RequestDate | undefined, { isExtended, dueOn }: Facts): string {
	if (governing === undefined) {
		return 'No rule pack of this site has a period for answers that was read here: set the days in which the site answers, with counsel.';
	}
	const moved =
		governing.endsOn === governing.dueOn
			? ''
			: `, ${governing.endsOn} being no working day moved to ${governing.dueOn}`;
	const first = `Received ${request.receivedOn}, that day not counted: ${governing.title}, to ${governing.endsOn}${moved}.`;
	return isExtended
		? `${first} Extended, the person told on ${request.extendedOn ?? ''}: counted from receipt, to ${dueOn ?? ''}.`
		: first;
}

function problemsOf(rollout: Rollout, request: Request, facts: Facts): RequestStanding['problems'] {
	const problems: { code: RequestProblemCode; message: string }[] = [];
	const { identityCheckedOn, answeredOn, extendedOn } = request;
	const { dueOn, governing } = facts;
	if (identityCheckedOn === null || (answeredOn !== null && identityCheckedOn > answeredOn)) {
		const message =
			answeredOn === null
				? 'Who asks was not checked yet: nothing about a person is given to somebody else.'
				: 'It was answered before it was checked who asks.';
		problems.push({ code: 'identity-unchecked', message });
	}
	if (extendedOn !== null && governing !== undefined && !facts.isInTime) {
		const message = `The person was told of the extension on ${extendedOn}, after the first period ended on ${governing.dueOn}: it does not count.`;
		problems.push({ code: 'extension-late', message });
	} else if (extendedOn !== null && !facts.isExtended) {
		const message = 'No extension is known under the rules that apply here: it does not count.';
		problems.push({ code: 'extension-unknown', message });
	}
	if (answeredOn !== null && dueOn !== null && answeredOn > dueOn) {
		problems.push({ code: 'answered-late', message: `Answered on ${answeredOn}, after ${dueOn}.` });
	}
	if (governing === undefined) {
		problems.push({ code: 'no-date', message: 'Neither the rule packs nor the site give a date for the answer.' });
	}
	const { coveredUntil } = rollout.holidays;
	if (
		!facts.isAnswered &&
		governing &&
		governing.pack !== 'site' &&
		(coveredUntil === null || coveredUntil < governing.dueOn)
	) {
		const until =
			coveredUntil === null
				? 'The holiday list does not say until when it is complete'
				: `The holiday list ends on ${coveredUntil}`;
		problems.push({
			code: 'holidays-unknown',
			message: `${until}: the due date may fall on a public holiday that is not listed.`
		});
	}
	return problems;
}
