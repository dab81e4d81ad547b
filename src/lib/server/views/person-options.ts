import type { Rollout } from '$lib/core/document/schema';

const { compare } = new Intl.Collator('en-US', { numeric: true });

/** Everybody to choose from, by name: whoever looks for somebody knows the name, not the staff number. */
export function personOptions(people: Rollout['people']): { value: string; label: string }[] {
	return people
		.map(({ id, name }) => ({ value: id, label: name === null ? id : `${name} (${id})` }))
		.sort((a, b) => compare(a.label, b.label));
}
