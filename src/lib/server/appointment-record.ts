import { z } from 'zod';
import type { AppointmentRecord, RecordedEntry } from '../core/exports/support/appointments';
import { groupBy } from '../core/kernel/group-by';
import { type OpenRollout, load } from './open-rollouts';
import { store } from './store/current';

/**
 * What the record of changes knows of appointments, and at which changes calendars of them were taken out. The latter is a fact of
 * the installation and names nobody; it is erased with the rollout.
 */

const takenSchema = z.object({ people: z.array(z.number()), stations: z.array(z.number()) });
type Taken = z.infer<typeof takenSchema>;
/** So many moments are remembered; calendars older than that were replaced many times over. */
const mostTaken = 1000;

/** The record of the bookings of a rollout; undefined where the rollout is gone. */
export function appointmentRecord({ id, createdAt }: OpenRollout): AppointmentRecord | undefined {
	const loaded = load(id);
	if (!loaded) return undefined;
	const { enrollment } = loaded.open.document;
	const lists = { bookings: enrollment?.bookings ?? [], visits: enrollment?.visits ?? [] };
	const first: RecordedEntry[] = [];
	const later: (RecordedEntry & { readonly change: number; readonly at: string })[] = [];
	for (const list of ['visits', 'bookings'] as const) {
		const path = `enrollment.${list}`;
		const states = store().changes.entryStates(id, path);
		const slots = loaded.layout.get(path) ?? [];
		const firstByPiece = new Map<number, unknown>();
		for (const { piece, before } of states) if (!firstByPiece.has(piece)) firstByPiece.set(piece, before);
		lists[list].forEach((value: unknown, index) => {
			const piece = slots[index]?.number ?? 0;
			if (!firstByPiece.has(piece)) firstByPiece.set(piece, value);
		});
		for (const [piece, value] of firstByPiece) if (value !== null) first.push({ list, piece, value });
		for (const { change, at, piece, after } of states) later.push({ list, piece, value: after, change, at });
	}
	const changes = [...groupBy(later, ({ change }) => change)]
		.sort(([a], [b]) => a - b)
		.map(([number, entries]) => ({ number, at: entries[0]?.at ?? '', entries }));
	return { key: `${id} ${createdAt}`, first, changes, takenAt: takenOf(id) };
}

/** Remembers that calendars of appointments were taken out as they stand now. */
export function noteTaken({ id, lastChange }: OpenRollout, whose: keyof Taken): void {
	const taken = takenOf(id);
	if (taken[whose].includes(lastChange)) return;
	const next = { ...taken, [whose]: [...taken[whose], lastChange].slice(-mostTaken) };
	store().setFact(factOf(id), JSON.stringify(next));
}

function takenOf(id: string): Taken {
	const kept = takenSchema.safeParse(JSON.parse(store().fact(factOf(id)) ?? 'null'));
	return kept.success ? kept.data : { people: [], stations: [] };
}

function factOf(id: string): string {
	return `calendars-taken ${id}`;
}
