import { registryOf } from '../../kernel/registry';
import { type RulePack, ruleName } from '../define-pack';
import { siteRuleIds } from '../site-rules';

/** Every rule pack by its id, which is what `privacy.regimes` lists. */
export const rulePacks: ReadonlyMap<string, RulePack> = registryOf(
	import.meta.glob<{ default: RulePack }>(['./*.ts', '!./*.test.ts', '!./index.ts'], { eager: true }),
	(pack) => pack.id
);

/** Every rule as answers write it, in the order of the table that decides ties; the site's own come last. */
export const ruleIds: readonly string[] = [
	...[...rulePacks.values()]
		.sort((a, b) => a.row - b.row)
		.flatMap((pack) => pack.rules.map((rule) => ruleName(pack, rule))),
	...siteRuleIds
];
