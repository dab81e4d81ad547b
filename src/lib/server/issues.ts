import { readRollout } from '../core/answers/support/read-rollout';
import { revisionLetter, revisionNumber } from '../core/document/revision-letter';
import type { Rollout } from '../core/document/schema';
import { writeDocument } from '../core/document/write';
import { fault } from '../core/kernel/fault';
import { type OpenRollout, load, needRollout } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import { store } from './store/current';
import type { IssueRow } from './store/issue-repository';
import { assemble } from './store/pieces';
import { piecesOf } from './store/plan-pieces';

/** An issued revision, with its letter. */
export interface Issue extends IssueRow {
	readonly letter: string;
}

/** A note is one line in the revision table. */
const longestNote = 200;

/**
 * Issues a rollout as it stands: its document is kept under the next letter, with a note on what it is for. Refused when the
 * latest issue is this same state already.
 */
export function issueRollout(id: string, note: string, who: string): Outcome<Issue> {
	const open = needRollout(id);
	if (!open.ok) return open;
	const said = note.trim();
	if (said === '' || said.length > longestNote) {
		return refuse('invalid', fault(['note'], note, `what this revision is for, in 1 to ${longestNote} characters`));
	}
	const latest = latestIssue(id);
	const { revision, lastChange, document } = open.value;
	if (latest?.revision === revision) {
		const expected = `a rollout that was changed since revision ${latest.letter} was issued`;
		return refuse('conflict', fault(['revision'], latest.letter, expected));
	}
	const row = { at: new Date().toISOString(), who, note: said, change: lastChange, revision };
	const number = store().issues.add(id, { ...row, document: writeDocument(document) });
	const issue = { ...row, number, letter: revisionLetter(number), withdrawnAt: null, withdrawnBy: null };
	readIssues.set(keyOf(id, issue), open.value.rollout);
	return { ok: true, value: issue };
}

/** Issued revisions, the latest first, withdrawn ones among them. */
export function listIssues(id: string): Outcome<readonly Issue[]> {
	const open = needRollout(id);
	return open.ok ? { ok: true, value: store().issues.list(id).map(lettered) } : open;
}

/** The latest revision that was issued and not withdrawn. */
export function latestIssue(id: string): Issue | undefined {
	const row = store()
		.issues.list(id)
		.find(({ withdrawnAt }) => withdrawnAt === null);
	return row && lettered(row);
}

/** The text of an issued document, by its letter. */
export function issuedDocument(id: string, letter: string): Outcome<string> {
	const issue = findIssue(id, letter);
	if (!issue.ok) return issue;
	const text = store().issues.document(id, issue.value.number);
	return text === undefined ? refuse('not-found', withdrawn(issue.value)) : { ok: true, value: text };
}

/** Takes an issue back: its document is erased, its letter is not given out again. */
export function withdrawIssue(id: string, letter: string, who: string): Outcome<Issue> {
	const issue = findIssue(id, letter);
	if (!issue.ok) return issue;
	if (issue.value.withdrawnAt !== null) return refuse('conflict', withdrawn(issue.value));
	store().issues.withdraw(id, issue.value.number, new Date().toISOString(), who);
	readIssues.delete(keyOf(id, issue.value));
	return findIssue(id, letter);
}

/** An issued rollout as it is read; kept, since sheets ask for it again and again. */
export function issuedRollout(id: string, letter: string): Outcome<Rollout> {
	const issue = findIssue(id, letter);
	if (!issue.ok) return issue;
	const key = keyOf(id, issue.value);
	const known = readIssues.get(key);
	if (known) return { ok: true, value: known };
	const text = issuedDocument(id, letter);
	if (!text.ok) return text;
	const read = readRollout(text.value);
	if (!read.ok) return outcomeOf(read);
	readIssues.set(key, read.value.rollout);
	for (const oldest of readIssues.keys()) {
		if (readIssues.size <= mostRead) break;
		readIssues.delete(oldest);
	}
	return { ok: true, value: read.value.rollout };
}

/** The rollout as it was after a change of its record, put together from what later changes found. */
export function rolloutAt(open: OpenRollout, change: number): Outcome<Rollout> {
	const loaded = load(open.id);
	if (!loaded || !store().changes.find(open.id, change)) {
		return refuse('not-found', fault(['change'], change, 'the number of a change'));
	}
	const removal = store().changes.lastRemoval(open.id);
	if (change < removal) {
		const expected = `a change from number ${removal} on; people were removed there, and earlier states are gone`;
		return refuse('not-found', fault(['change'], change, expected));
	}
	const nameOf = ({ path, number }: { path: string; number: number }) => `${path}#${number}`;
	const pieces = new Map(
		piecesOf({ document: loaded.open.document, layout: loaded.layout }).map((piece) => [nameOf(piece), piece])
	);
	for (const { path, number, before } of store().changes.statesAt(open.id, change)) {
		if (before) pieces.set(nameOf({ path, number }), { path, number, ...before });
		else pieces.delete(nameOf({ path, number }));
	}
	const read = readRollout(writeDocument(assemble([...pieces.values()]).document));
	return read.ok ? { ok: true, value: read.value.rollout } : outcomeOf(read);
}

/** Forgets issued rollouts in memory. */
export function forgetIssues(): void {
	readIssues.clear();
}

const readIssues = new Map<string, Rollout>();
const mostRead = 6;

function findIssue(id: string, letter: string): Outcome<Issue> {
	const issues = listIssues(id);
	if (!issues.ok) return issues;
	const number = revisionNumber(letter);
	const issue = issues.value.find((one) => one.number === number);
	return issue
		? { ok: true, value: issue }
		: refuse('not-found', fault(['issue'], letter, 'the letter of a revision that was issued'));
}

function withdrawn({ letter }: Issue) {
	return fault(['issue'], letter, 'a revision that was not withdrawn');
}

function lettered(row: IssueRow): Issue {
	return { ...row, letter: revisionLetter(row.number) };
}

/** The instant of issue tells apart two installations' rollouts of one id, in tests say. */
function keyOf(id: string, { number, at }: IssueRow): string {
	return `${id}#${number}@${at}`;
}
