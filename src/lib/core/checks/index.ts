import { CoverageFinder } from '../access/coverage';
import { AccessModel } from '../access/model';
import type { Rollout } from '../document/schema';
import { byCodeUnits } from '../kernel/compare';
import type { Finding, Severity } from '../kernel/finding';
import { registryOf } from '../kernel/registry';
import { type Work, unwatched } from '../kernel/work';
import type { Case, Check } from './define-check';

/** Every check, by its code. */
export const checks: ReadonlyMap<string, Check> = registryOf(
	import.meta.glob<{ default: Check }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-check.ts'], {
		eager: true
	}),
	(check) => check.code
);

const severities: readonly Severity[] = ['error', 'warning', 'note'];

/** Findings, gravest first, then by code and subject. */
export async function findAll(rollout: Rollout, work: Work = unwatched): Promise<readonly Finding[]> {
	const access = new AccessModel(rollout);
	const input = { rollout, access, coverage: new CoverageFinder(access) };
	const findings: Finding[] = [];
	let done = 0;
	for (const check of checks.values()) {
		if (work.isCancelled()) break;
		for (const found of await check.find(input)) findings.push(findingOf(check, found, rollout));
		work.report(++done, checks.size, check.title);
	}
	return findings.sort(
		(a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity) || byCodeUnits(sortKey(a), sortKey(b))
	);
}

function findingOf(check: Check, found: Case, rollout: Rollout): Finding {
	const dates = [...new Set(found.dates ?? [])].sort();
	return {
		code: check.code,
		severity: check.severity,
		message: check.message(found, rollout),
		subject: found.subject,
		dates,
		count: found.count ?? Math.max(1, dates.length)
	};
}

function sortKey(finding: Finding): string {
	return `${finding.code}\n${JSON.stringify(finding.subject)}\n${finding.dates[0] ?? ''}`;
}
