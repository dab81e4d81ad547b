/** What a refused form comes back with: every fault, the faults by field, and what was typed. */
export interface Refused {
	readonly faults: readonly {
		readonly path: string;
		readonly value: unknown;
		readonly expected: string;
		readonly nearest?: string;
	}[];
	readonly byField: Readonly<Record<string, string>>;
	readonly typed: Readonly<Record<string, string>>;
}
