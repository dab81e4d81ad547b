import type { Rollout } from '../document/schema';
import type { Finding } from '../kernel/finding';
import { registryOf } from '../kernel/registry';
import { type Work, unwatched } from '../kernel/work';
import type { Check } from './define-check';
import { recheck } from './support/recheck';

/** Every check, by its code. */
export const checks: ReadonlyMap<string, Check> = registryOf(
	import.meta.glob<{ default: Check }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-check.ts'], {
		eager: true
	}),
	(check) => check.code
);

/** Findings, gravest first, then by code and subject. */
export async function findAll(rollout: Rollout, work: Work = unwatched): Promise<readonly Finding[]> {
	return (await recheck(null, rollout, checks, work)).findings;
}
