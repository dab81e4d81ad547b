import type { LocalDate } from '$lib/core/calendar/local-date';
import type { Rollout } from '$lib/core/document/schema';
import { type ConsentState, consentStates, noConsent } from '$lib/core/privacy/consent-state';

/** A person in the consent list. */
export interface ConsentRow {
	readonly id: string;
	readonly name: string;
	readonly department: string | null;
	readonly language: string | null;
	readonly decision: ConsentState['decision'];
	readonly on: string | null;
	readonly notice: string | null;
	readonly method: string | null;
}

/** How everybody who fits a filter has decided, as known on a date. */
export function consentRows(
	rollout: Rollout,
	on: LocalDate,
	filter: { readonly find: string; readonly decision: string }
): ConsentRow[] {
	const states = consentStates(rollout.privacy.consents, on);
	const needle = filter.find.toLowerCase();
	return rollout.people
		.map((person) => {
			const { decision, latest } = states.get(person.id) ?? noConsent;
			return {
				id: person.id,
				name: person.name ?? person.id,
				department: person.department,
				language: person.language,
				decision,
				on: latest?.on ?? null,
				notice: latest?.notice ?? null,
				method: latest?.method ?? null
			};
		})
		.filter(
			(row) =>
				(filter.decision === '' || row.decision === filter.decision) &&
				(needle === '' || `${row.id} ${row.name} ${row.department ?? ''}`.toLowerCase().includes(needle))
		);
}
