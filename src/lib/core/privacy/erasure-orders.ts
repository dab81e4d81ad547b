import { type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import { entryOf, nameOf } from '../document/names';
import type { ErasureOrder, Rollout, Template, TemplatePlace } from '../document/schema';

/**
 * Work orders: one template that must go, place by place. What was erased stands in the template, as everywhere; an order adds
 * who asked for it and, where the site wants a second pair of eyes, what was reported and not yet confirmed. Until it is,
 * nothing of it counts as erased.
 */

/**
 * How one place of an order stands: to do; out of reach; a backup that has not expired, or has and is to be looked at;
 * reported by one person; or erased.
 */
export type StepState = 'open' | 'offline' | 'waiting' | 'expired' | 'reported' | 'erased';

/** One place of a work order. */
export interface ErasureStep {
	readonly place: string;
	readonly name: string;
	readonly kind: TemplatePlace['kind'];
	readonly state: StepState;
	/** The day since which it cannot be reached. */
	readonly offlineSince: LocalDate | null;
	/** Of a backup with an expiry of its own: the day from which it holds nothing more; null while its sources are not erased. */
	readonly expiresOn: LocalDate | null;
	readonly keepsDays: number | null;
	/** Readers that a controller serves: templates may lie in them as well, and are looked for with it. */
	readonly readers: readonly string[];
	readonly on: LocalDate | null;
	readonly by: string | null;
	readonly evidence: string | null;
	readonly secondBy: string | null;
	readonly secondOn: LocalDate | null;
}

/** A work order as it stands on a day. */
export interface ErasureOrderStatus {
	readonly order: ErasureOrder;
	readonly template: Template | null;
	readonly steps: readonly ErasureStep[];
	/** The day on which the last place was erased; null while one is left. */
	readonly doneOn: LocalDate | null;
}

/** Every work order as it stands on a day, in the order of the document. Erasures dated later are not there yet. */
export function erasureOrders(rollout: Rollout, on: LocalDate): ErasureOrderStatus[] {
	const templates = new Map(rollout.privacy.templates.map((template) => [keyOf(template), template]));
	return rollout.privacy.erasureOrders.map((order) => {
		const template = templates.get(keyOf(order)) ?? null;
		const steps = template === null ? [] : erasureSteps(rollout, template, order, on);
		return { order, template, steps, doneOn: template === null ? null : erasedOn(template, on) };
	});
}

/** The places of a template as they stand on a day; `order` tells what was reported, null where there is none. */
export function erasureSteps(
	rollout: Rollout,
	template: Template,
	order: ErasureOrder | null,
	on: LocalDate
): ErasureStep[] {
	const { places } = rollout.privacy;
	return [...new Set(template.storedOn)].map((place): ErasureStep => {
		const told = entryOf(places, place);
		const erasure = erasureAt(template, place, on) ?? null;
		const report = erasure === null ? (order?.reports.find(({ from }) => from === place) ?? null) : null;
		const offlineSince = told?.offlineSince ?? null;
		const isOffline = offlineSince !== null && offlineSince <= on;
		const expiresOn = told ? expiryOf(template, told, on) : null;
		return {
			place,
			name: templatePlaceName(rollout, place),
			kind: kindOf(rollout, place),
			state:
				erasure !== null
					? 'erased'
					: report !== null
						? 'reported'
						: isOffline
							? 'offline'
							: (told?.keepsDays ?? told?.expiresOn ?? null) === null
								? 'open'
								: expiresOn !== null && expiresOn <= on
									? 'expired'
									: 'waiting',
			offlineSince: erasure === null && isOffline ? offlineSince : null,
			expiresOn,
			keepsDays: told?.keepsDays ?? null,
			readers: rollout.readers.filter(({ controller }) => controller === place).map(({ id }) => id),
			on: erasure?.on ?? report?.on ?? null,
			by: erasure?.by ?? report?.by ?? null,
			evidence: erasure?.evidence ?? report?.evidence ?? null,
			secondBy: erasure?.secondBy ?? null,
			secondOn: erasure?.secondOn ?? null
		};
	});
}

/** The day on which the last place of a template was emptied, as known on a day; null while one is left. */
export function erasedOn(template: Template, on: LocalDate): LocalDate | null {
	let last: LocalDate | null = null;
	for (const place of template.storedOn) {
		const erasure = erasureAt(template, place, on);
		if (erasure === undefined) return null;
		if (last === null || erasure.on > last) last = erasure.on;
	}
	return last;
}

/** The first erasure that emptied a place; one dated before the enrollment empties nothing. */
export function erasureAt(template: Template, place: string, on: LocalDate): Template['erasures'][number] | undefined {
	let first: Template['erasures'][number] | undefined;
	for (const one of template.erasures) {
		const counts = one.from === place && one.on >= template.enrolledOn && one.on <= on;
		if (counts && (first === undefined || one.on < first.on)) first = one;
	}
	return first;
}

/**
 * From when on a backup holds nothing more of a template: on its own day, or so many days after the last of its sources was
 * erased, since until then a new backup may hold it again. Sources are the places that it copies, else every other place
 * that has no expiry of its own.
 */
function expiryOf(template: Template, backup: TemplatePlace, on: LocalDate): LocalDate | null {
	if (backup.expiresOn !== null) return backup.expiresOn;
	if (backup.keepsDays === null) return null;
	const named = backup.copies.filter((place) => template.storedOn.includes(place));
	const sources = named.length > 0 ? named : template.storedOn.filter((place) => place !== backup.id);
	let last: LocalDate | null = null;
	for (const place of sources) {
		const erasure = erasureAt(template, place, on);
		if (erasure === undefined) return null;
		if (last === null || erasure.on > last) last = erasure.on;
	}
	return last === null ? null : dateOf(plusDays(epochDayOf(last), backup.keepsDays));
}

/** What people call a place that stores templates: a controller, a station, a reader, or a place of the site's own. */
export function templatePlaceName(rollout: Rollout, place: string): string {
	const { controllers, readers, doors, enrollment, privacy } = rollout;
	const own = entryOf(privacy.places, place)?.name ?? null;
	if (own !== null) return own;
	if (entryOf(controllers, place)) return nameOf(controllers, place);
	if (entryOf(enrollment.stations, place)) return nameOf(enrollment.stations, place);
	const reader = entryOf(readers, place);
	return reader ? `Reader ${place} at ${nameOf(doors, reader.door)}` : place;
}

function kindOf({ controllers, readers, enrollment, privacy }: Rollout, place: string): TemplatePlace['kind'] {
	const told = entryOf(privacy.places, place)?.kind ?? 'other';
	if (told !== 'other') return told;
	if (entryOf(controllers, place)) return 'controller';
	if (entryOf(enrollment.stations, place)) return 'station';
	return entryOf(readers, place) ? 'reader' : 'other';
}

function keyOf({ person, enrolledOn }: Pick<Template, 'person' | 'enrolledOn'>): string {
	return `${enrolledOn} ${person}`;
}
