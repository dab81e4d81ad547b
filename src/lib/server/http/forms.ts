import { readLines } from '$lib/components/sheet/lines';
import { stepsInPath } from './fault-fields';
import type { Fault } from '$lib/core/kernel/fault';

/**
 * Reading posted forms. Nothing is judged here: what a person typed goes into the entry as it is, so that the schema of the
 * document refuses it with place and expectation. An empty field is null, which means "left out".
 */

/** The trimmed text of a field; null when it is empty or missing. */
export function textIn(form: FormData, name: string): string | null {
	const value = form.get(name);
	if (typeof value !== 'string') return null;
	const text = value.trim();
	return text === '' ? null : text;
}

/** A number where one was typed, else the text itself (the schema then says what it expected); null when empty. */
export function numberIn(form: FormData, name: string): number | string | null {
	const text = textIn(form, name);
	if (text === null) return null;
	return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}

/** Entries of a field that sends one per line (or separated by commas). */
export function linesIn(form: FormData, name: string): string[] {
	return readLines(linesOf(form, name));
}

/** The text of a field of several lines, empty when it is missing. */
export function linesOf(form: FormData, name: string): string {
	const value = form.get(name);
	return typeof value === 'string' ? value : '';
}

/** Every value sent under a name: the boxes that were ticked. */
export function chosenIn(form: FormData, name: string): string[] {
	return form.getAll(name).filter((value): value is string => typeof value === 'string' && value !== '');
}

/** True when a box was ticked. */
export function isTicked(form: FormData, name: string): boolean {
	return form.get(name) !== null;
}

/**
 * The typed text of every field, to fill a form again that was refused; several values of one name (ticked boxes) are one
 * per line. Files are left out.
 */
export function typedIn(form: FormData): Record<string, string> {
	const typed = new Map<string, string>();
	for (const [name, value] of form) {
		if (typeof value !== 'string') continue;
		const before = typed.get(name);
		typed.set(name, before === undefined ? value : `${before}\n${value}`);
	}
	return Object.fromEntries(typed);
}

/**
 * Faults of an edit's parameters by the field of the form that caused them: `$.entry.from` stands at field `from`. The
 * first fault of a field wins; those that belong to no field are told above the form.
 */
export function faultsByField(faults: readonly Fault[]): Record<string, string> {
	const byField: Record<string, string> = {};
	for (const { path, expected, nearest } of faults) {
		const [root, field] = stepsInPath(path);
		if ((root !== 'entry' && root !== 'value') || field === undefined) continue;
		byField[field] ??= `Expected ${expected}${nearest === undefined ? '' : `; did you mean ${nearest}?`}.`;
	}
	return byField;
}
