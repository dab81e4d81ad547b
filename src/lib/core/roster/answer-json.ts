import type { RosterAnswer } from './roster-answer';

/** So many entries of a list are written at once. */
const together = 2000;

/**
 * What a roster says as the text of its JSON, in pieces: that of a long list is longer than the list, and need not be in memory as
 * a whole. Joined, the pieces are what `JSON.stringify` writes.
 */
export function* answerJson(answer: RosterAnswer): Generator<string> {
	let before = '{';
	for (const [key, value] of Object.entries(answer)) {
		yield `${before}${JSON.stringify(key)}:`;
		yield* valueJson(value);
		before = ',';
	}
	yield '}';
}

function* valueJson(value: unknown): Generator<string> {
	if (!Array.isArray(value) || value.length <= together) {
		yield JSON.stringify(value);
		return;
	}
	for (let at = 0; at < value.length; at += together) {
		const piece = JSON.stringify(value.slice(at, at + together));
		yield (at === 0 ? '[' : ',') + piece.slice(1, -1);
	}
	yield ']';
}
