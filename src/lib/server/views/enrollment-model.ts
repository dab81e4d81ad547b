import type { Rollout } from '$lib/core/document/schema';
import { EnrollmentModel } from '$lib/core/enrollment/model';

const models = new WeakMap<Rollout, EnrollmentModel>();

/** What a rollout says about enrolling, made ready once for each state of it. */
export function enrollmentModelOf(rollout: Rollout): EnrollmentModel {
	let model = models.get(rollout);
	if (!model) models.set(rollout, (model = new EnrollmentModel(rollout)));
	return model;
}
