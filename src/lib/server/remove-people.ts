import { readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { readChanged } from '../core/document/read-changed';
import { removalEdit } from '../core/document/record-chain';
import { fault } from '../core/kernel/fault';
import { TextNeedles } from '../core/kernel/text-needles';
import { rulePacks } from '../core/privacy/packs';
import { type RemovalLine, removalLines, withoutPeople } from '../core/privacy/removal';
import { todayAt } from './clock';
import { forgetIssues } from './issues';
import { endComparings } from './jobs/comparings';
import { forgetJobs } from './jobs/jobs';
import { type Loaded, type OpenRollout, forgetAll, load, noRollout, quickRevisionOf } from './open-rollouts';
import { type Outcome, outcomeOf, refuse } from './outcome';
import { dropRostersOf } from './roster-drafts';
import { forgetPeople } from './roster-memory';
import { dataFolder, store } from './store/current';
import { type Mentions, type Touched, mentions } from './store/people-removal';
import { planPieces } from './store/plan-pieces';

/** What a removal would do. */
export interface RemovalPreview {
	/** Those who are due and have nothing that keeps them, or those who were asked for. */
	readonly people: readonly RemovalLine[];
	readonly touched: Touched;
	/** Copies of the database made before updates of this program: they go as well. */
	readonly databaseCopies: readonly string[];
	/** Other rollouts kept here in which the same people stand. */
	readonly alsoIn: readonly string[];
}

/** What was done. */
export interface Removed {
	readonly people: number;
	readonly change: number;
	/** False while another program has the file open: its journal is emptied when that ends. */
	readonly isWiped: boolean;
}

/** Everybody of a rollout as their removal stands today. */
export function removalOf({ rollout }: OpenRollout): readonly RemovalLine[] {
	return removalLines(rollout, todayAt(rollout.site.timeZone));
}

/** What removing people would do; of everybody who is due where none are named. */
export function previewRemoval(open: OpenRollout, only?: readonly string[]): RemovalPreview {
	const people = chosen(open, only);
	const ids = new Set(people.map(({ person }) => person));
	const loaded = load(open.id);
	const about = loaded ? mentionsOf(loaded, ids) : null;
	return {
		people,
		touched: about ? store().touchedBy(open.id, about) : { changes: 0, proposals: 0, issues: 0, providerUsers: 0 },
		databaseCopies: databaseCopies(),
		alsoIn: ids.size === 0 ? [] : othersWith(open, ids)
	};
}

/**
 * Removes people for good: from the document, from the content of every earlier change, from proposals, issued revisions, what
 * identity providers sent and what was decided about lists; the file is then written anew, and copies of it from before updates are
 * destroyed. There is no way back. `name`: the site's name, typed again. Refused for somebody with a template, a hold or a request left.
 */
export async function removePeople(
	id: string,
	name: string,
	who: string,
	only?: readonly string[]
): Promise<Outcome<Removed>> {
	const loaded = load(id);
	if (!loaded) return refuse('not-found', noRollout(id));
	const { open } = loaded;
	if (name.trim() !== open.name.trim()) {
		return refuse('conflict', fault(['name'], name, `the site's name, ${JSON.stringify(open.name)}`));
	}
	const people = chosen(open, only);
	if (people.length === 0) return refuse('conflict', fault(['people'], null, 'somebody who is due; nobody is'));
	const kept = people.filter(({ stays }) => stays.length > 0);
	if (kept.length > 0) {
		const expected = 'somebody with every template erased, without a hold, and with every request answered';
		return refuse(
			'conflict',
			kept.map(({ person }) => fault(['people'], person, expected))
		);
	}
	await forgetJobs(id);
	const done = keepWithout(loaded, new Set(people.map(({ person }) => person)), who);
	if (!done.ok) return done;
	dropRostersOf(id);
	forgetIssues();
	forgetAll();
	await endComparings();
	for (const file of databaseCopies()) destroyFile(path.join(dataFolder(), file));
	return { ok: true, value: { people: people.length, change: done.value, isWiped: store().wipe() } };
}

function keepWithout(loaded: Loaded, ids: ReadonlySet<string>, who: string): Outcome<number> {
	const { open } = loaded;
	const about = mentionsOf(loaded, ids);
	const document = withoutPeople(open.document, ids, about.inWords);
	const read = readChanged(open, document, { regimes: rulePacks.keys() });
	if (!read.ok) return outcomeOf(read);
	const plan = planPieces({ document: open.document, layout: loaded.layout }, document, loaded.nextPiece);
	const revision = quickRevisionOf(document);
	const number = open.lastChange + 1;
	const at = new Date().toISOString();
	const isKept = store().inTransaction(() => {
		if (!store().rollouts.advance(open.id, open.lastChange, document.site.name, revision, plan.nextPiece)) return false;
		store().rollouts.writePieces(open.id, plan.changes);
		const digest = store().takeOut(open.id, about, number, at);
		forgetPeople(open.id, (text) => mentions(about, text));
		const what = `${ids.size} ${ids.size === 1 ? 'person' : 'people'} removed for good`;
		const params = { count: ids.size, digest };
		const by = mentions(about, who) ? '' : who;
		const change = { number, at, who: by, what, edit: removalEdit, params, revision, undoes: null };
		// What stood there before is not recorded: it is what goes.
		store().changes.add(open.id, change, []);
		return true;
	});
	if (isKept) return { ok: true, value: number };
	return refuse('conflict', fault(['rollout'], open.id, 'a rollout that nobody else changes at this moment'));
}

function chosen(open: OpenRollout, only?: readonly string[]): RemovalLine[] {
	const lines = removalOf(open);
	if (only === undefined) return lines.filter(({ isDue, stays }) => isDue && stays.length === 0);
	const wanted = new Set(only);
	return lines.filter(({ person }) => wanted.has(person));
}

interface MentionsInWords extends Mentions {
	/** As `needles`, without what somebody who stays is called too. */
	readonly inWords: TextNeedles;
}

/** Shorter numbers stand in dates and counts by chance. */
const shortest = 4;

function mentionsOf({ open, layout }: Loaded, people: ReadonlySet<string>): MentionsInWords {
	const all = open.document.people ?? [];
	const pieces = new Set(
		(layout.get('people') ?? []).flatMap(({ number }, place) => (people.has(all[place]?.id ?? '') ? [number] : []))
	);
	const called = ({ id, name, email }: { id: string; name?: unknown; email?: unknown }) =>
		[id, name, email].filter((one): one is string => typeof one === 'string' && one.trim() !== '');
	const [going, staying] = [all.filter(({ id }) => people.has(id)), all.filter(({ id }) => !people.has(id))];
	const texts = new Set([...going.flatMap(called), ...store().earlierNames(open.id, people, pieces)]);
	const taken = new Set(staying.flatMap(called).map((text) => text.toLowerCase()));
	const [needles, inWords, short] = [new TextNeedles(), new TextNeedles(), new Set<string>()];
	for (const text of texts) {
		if (text.trim().length < shortest) short.add(text);
		else {
			needles.add(text);
			// As it stands within JSON.
			needles.add(JSON.stringify(text).slice(1, -1));
			if (!taken.has(text.toLowerCase())) inWords.add(text);
		}
	}
	return { people, needles, short, inWords };
}

/** The files that were put beside the database before it was brought to another version. */
function databaseCopies(): string[] {
	return readdirSync(dataFolder()).filter((file) => /\.sqlite\.version-\d+(-\d+)?$/.test(file));
}

function destroyFile(file: string): void {
	writeFileSync(file, new Uint8Array(statSync(file).size));
	rmSync(file);
}

function othersWith(open: OpenRollout, ids: ReadonlySet<string>): string[] {
	const called = new Set(
		open.rollout.people.filter(({ id }) => ids.has(id)).map(({ id, name }) => JSON.stringify([id, name]))
	);
	const others = [...store().rollouts.list(false), ...store().rollouts.list(true)].filter(({ id }) => id !== open.id);
	return others
		.filter(({ id }) =>
			(store().rollouts.read(id).document.people ?? []).some((one) =>
				called.has(JSON.stringify([one.id, one.name ?? null]))
			)
		)
		.map(({ name, removedAt }) => (removedAt === null ? name : `${name} (deleted, can still be restored)`));
}
