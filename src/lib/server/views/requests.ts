import type { LocalDate } from '$lib/core/calendar/local-date';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type RequestStanding, requestsOn } from '$lib/core/privacy/requests';

/** What is done next about a request, and where. */
export interface RequestStep {
	readonly text: string;
	readonly link: string;
	/** Below the address of the rollout. */
	readonly path: string;
}

/** A request in the register. */
export interface RequestRow extends RequestStanding {
	readonly id: string;
	readonly name: string;
	readonly steps: readonly RequestStep[];
}

/** The register on a day, overdue first. */
export function requestRows(rollout: Rollout, on: LocalDate): RequestRow[] {
	return requestsOn(rollout, on).map((standing) => ({
		...standing,
		id: standing.request.id,
		name: nameOf(rollout.people, standing.request.person),
		steps: stepsOf(rollout, standing)
	}));
}

/** The id that the next request gets: the number after the largest one in use. */
export function nextRequestId({ privacy }: Rollout): string {
	const numbers = privacy.requests.map(({ id }) => Number(/\d+$/.exec(id)?.[0] ?? 0));
	return `q${Math.max(0, ...numbers) + 1}`;
}

function stepsOf({ privacy }: Rollout, { request }: RequestStanding): RequestStep[] {
	const person = encodeURIComponent(request.person);
	const held: RequestStep = {
		text: 'Everything held on the person, to read, print or send.',
		link: 'Everything held',
		path: `requests/person/${person}`
	};
	const templates = privacy.templates.flatMap((one, place) => (one.person === request.person ? [place] : []));
	const ledger: RequestStep[] = templates.map((place) => ({
		text: 'The template is erased at every place, with evidence, on the ledger; then answer here.',
		link: 'To the ledger',
		path: `retention?template=${place}#template`
	}));
	const withdrawal: RequestStep = {
		text: 'The withdrawal is recorded with its date; the ledger then asks for the erasure.',
		link: 'To the consent desk',
		path: `consent?person=${person}#record`
	};
	const objection: RequestStep = {
		text: 'Counsel weighs the grounds; until then the template is not used. Offer the other credential.',
		link: 'Decisions of the person',
		path: `people/${person}`
	};
	switch (request.kind) {
		case 'access':
			return [held];
		case 'erasure':
			return [...ledger, held];
		case 'withdrawal':
			return [withdrawal, ...ledger];
		case 'objection':
			return [objection, held];
	}
}
