import type { Instant } from '../../calendar/zone';
import type { Rollout } from '../../document/schema';
import { instantValue } from '../support/ical';
import { openProfilesAndCredentials } from './credentials';
import { leftOut } from './left-out';
import { capabilitiesFor } from './needs';
import { type ReportItem, reported } from './report';
import { openSchedules } from './schedules';
import type { OpenModel } from './shapes';

export interface OpenModelReport {
	/** What the model cannot hold as it is: nothing is dropped without standing here. */
	readonly items: readonly ReportItem[];
	/** What a device must support at least. */
	readonly capabilities: ReturnType<typeof capabilitiesFor>;
}

/** A rollout in the open data model, and what became of that which the model cannot hold. `madeAt` is in milliseconds since 1970. */
export function openModelOf(rollout: Rollout, madeAt: number): { model: OpenModel; report: OpenModelReport } {
	const items: ReportItem[] = [];
	const stamp = instantValue(Math.floor(madeAt / 1000) as Instant);
	const { schedules, groups } = openSchedules(rollout, stamp, items);
	const { profiles, credentials } = openProfilesAndCredentials(rollout, items);
	const model = { SpecialDayGroup: groups, Schedule: schedules, AccessProfile: profiles, Credential: credentials };
	if (schedules.length > 0) {
		const { from, until } = rollout.horizon;
		items.push(reported('time-zone', '$.site.timeZone', rollout.site.timeZone));
		items.push(reported('horizon-only', '$.horizon', `${from} until ${until}`));
	}
	items.push(...leftOut(rollout));
	return { model, report: { items, capabilities: capabilitiesFor(model) } };
}
