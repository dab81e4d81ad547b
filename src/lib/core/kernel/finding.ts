/** How grave a finding is: an error stops a go-live, a warning wants a decision, a note is good to know. */
export type Severity = 'error' | 'warning' | 'note';

/**
 * Something wrong or doubtful in a document that can be read. One finding stands for one subject; its dates
 * (local dates, sorted, each once) and its count gather the cases.
 */
export interface Finding {
	readonly code: string;
	readonly severity: Severity;
	readonly message: string;
	readonly subject: Readonly<Record<string, string | readonly string[]>>;
	readonly dates: readonly string[];
	readonly count: number;
}
