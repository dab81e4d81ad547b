import { type LocalDate, dateOf, epochDayOf, plusDays } from '../calendar/local-date';
import type { Rollout } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import type { DisclosureRule } from './define-pack';
import { packsOf } from './packs-of';
import { type WorkingDayTest, lastWorkingDayAtOrBefore } from './working-days';

/** Something that must be disclosed before the first go-live, and by when. */
export interface GoLiveDisclosure {
	readonly pack: string;
	readonly rule: DisclosureRule;
	/** The earliest `goLive` of a wave. */
	readonly goLive: LocalDate;
	/** The last day by plain subtraction. */
	readonly latestOn: LocalDate;
	/** A day earlier, since whether both end days count is not settled. */
	readonly cautiousOn: LocalDate;
	/** The last working day at or before `latestOn`. */
	readonly fileBy: LocalDate;
}

/**
 * What the rule packs of a site ask to be disclosed before the first wave goes live; empty without such a pack, or while
 * no wave has a `goLive`.
 * @source CQLR, c. C-1.1, section 45 (Quebec): 60 days; plain subtraction is an assumption
 */
export function goLiveDisclosures(rollout: Rollout, isWorkingDay: WorkingDayTest): GoLiveDisclosure[] {
	const goLive = rollout.enrollment.waves
		.flatMap((wave) => (wave.goLive === null ? [] : [wave.goLive]))
		.sort(byCodeUnits)[0];
	if (goLive === undefined) return [];
	return packsOf(rollout.privacy).flatMap((pack) => {
		if (pack.disclosure === null) return [];
		const latestOn = dateOf(plusDays(epochDayOf(goLive), -pack.disclosure.daysBefore));
		return [
			{
				pack: pack.id,
				rule: pack.disclosure,
				goLive,
				latestOn,
				cautiousOn: dateOf(plusDays(epochDayOf(latestOn), -1)),
				fileBy: lastWorkingDayAtOrBefore(latestOn, isWorkingDay)
			}
		];
	});
}
