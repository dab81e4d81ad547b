import type { LocalDate } from '../calendar/local-date';
import { nameOf } from '../document/names';
import type { Rollout } from '../document/schema';
import { type ErasureStep, erasedOn, erasureSteps } from './erasure-orders';
import { paredTo } from './pared';
import { type TemplateRetention, retentionOn } from './retention';

/** What a person is told about the erasure of a template. Nothing of anybody else but the names of those who did it. */
export interface ErasureCertificate {
	readonly person: string;
	readonly name: string;
	readonly enrolledOn: LocalDate;
	/** The day on which the last place was emptied; null while one is left, and then it is no certificate yet. */
	readonly erasedOn: LocalDate | null;
	/** Every place that held it, with day, person and evidence. */
	readonly places: readonly ErasureStep[];
	/** What the rules asked for. */
	readonly retention: TemplateRetention;
	readonly order: string | null;
	readonly openedOn: LocalDate | null;
}

/** What can be certified about each template of a person on a day, the latest enrollment first; empty where there is none. */
export function erasureCertificates(rollout: Rollout, person: string, on: LocalDate): ErasureCertificate[] {
	const pared = paredTo(rollout, person);
	const { templates, erasureOrders } = pared.privacy;
	return retentionOn(pared, on)
		.templates.flatMap((retention, place) => {
			const template = templates[place];
			if (template === undefined) return [];
			const order = erasureOrders.find(({ enrolledOn }) => enrolledOn === template.enrolledOn) ?? null;
			return [
				{
					person,
					name: nameOf(pared.people, person),
					enrolledOn: template.enrolledOn,
					erasedOn: erasedOn(template, on),
					places: erasureSteps(rollout, template, order, on),
					retention,
					order: order?.id ?? null,
					openedOn: order?.openedOn ?? null
				}
			];
		})
		.sort((a, b) => (a.enrolledOn < b.enrolledOn ? 1 : -1));
}
