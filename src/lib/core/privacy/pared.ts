import type { Rollout } from '../document/schema';

/** A rollout with what is about one person alone: what is reckoned of one template hangs on nobody else. */
export function paredTo(rollout: Rollout, person: string): Rollout {
	const own = <T extends { readonly person: string }>(list: readonly T[]) =>
		list.filter((one) => one.person === person);
	const { privacy } = rollout;
	return {
		...rollout,
		people: rollout.people.filter(({ id }) => id === person),
		privacy: {
			...privacy,
			consents: own(privacy.consents),
			templates: own(privacy.templates),
			holds: own(privacy.holds),
			erasureOrders: own(privacy.erasureOrders)
		}
	};
}
