import { getContext, setContext } from 'svelte';

/** What changed since the last issued revision: outlined by a cloud on every sheet, and listed in its revision table. */
export interface CloudFacts {
	/** The letter of the issued revision that is compared with. */
	readonly letter: string;
	/** The letter that the next issue gets. */
	readonly next: string;
	/** The date of issue, as shown. */
	readonly on: string;
	readonly note: string;
	readonly who: string;
	/** The rollout stands as it was issued. */
	readonly isIssued: boolean;
	/** How many entries and parts differ. */
	readonly count: number;
	/** Keys of the entries added and changed, by their list; what tells an entry apart is its id, or what stands for it. */
	readonly changed: Readonly<Record<string, readonly string[]>>;
	/** What changed, in words, by the code of the sheet on which it is edited. */
	readonly lines: Readonly<Record<string, readonly string[]>>;
}

const key = Symbol('clouds');

/** Sets the facts for all sheets below; a function, so that they follow the data. Call it in a layout. */
export function setClouds(facts: () => CloudFacts | null): void {
	setContext(key, facts);
}

/** The clouds of a sheet: ask `isChanged` of each row or card. */
export interface Clouds {
	readonly facts: CloudFacts | null;
	/** For those who listen: "changed since revision B". */
	readonly label: string;
	isChanged(list: string, entry: string): boolean;
}

/** The clouds that a layout above has set; none where it has not, or nothing was issued. */
export function getClouds(): () => Clouds {
	const facts = getContext<(() => CloudFacts | null) | undefined>(key);
	let known: { readonly of: CloudFacts | null; readonly clouds: Clouds } | undefined;
	return () => {
		const now = facts?.() ?? null;
		if (known === undefined || known.of !== now) known = { of: now, clouds: cloudsOf(now) };
		return known.clouds;
	};
}

function cloudsOf(facts: CloudFacts | null): Clouds {
	const sets = new Map(Object.entries(facts?.changed ?? {}).map(([list, entries]) => [list, new Set(entries)]));
	return {
		facts,
		label: facts === null ? '' : `changed since revision ${facts.letter}`,
		isChanged: (list, entry) => sets.get(list)?.has(entry) ?? false
	};
}
