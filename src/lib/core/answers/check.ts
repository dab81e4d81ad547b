import { z } from 'zod';
import { checks, findAll } from '../checks';
import { counted } from '../document/names';
import type { Finding, Severity } from '../kernel/finding';
import { ok } from '../kernel/result';
import { defineAnswer } from './define-answer';

/** What `check` answers. */
export interface CheckAnswer {
	readonly findings: readonly Finding[];
	readonly counts: Readonly<Record<Severity, number>>;
}

const mostOfACode = 8;

export default defineAnswer<Record<string, never>, CheckAnswer>({
	name: 'check',
	summary: 'Everything wrong or doubtful in the access plan: locked-out shifts, missing routes, undecided holidays.',
	params: z.strictObject({}),
	async run(rollout, _params, work) {
		const findings = await findAll(rollout, work);
		const counts = { error: 0, warning: 0, note: 0 };
		for (const { severity } of findings) counts[severity]++;
		return ok({ findings, counts });
	},
	isBad: ({ counts }) => counts.error > 0,
	text({ findings, counts }) {
		if (findings.length === 0) return 'Nothing found: no error, no warning, no note.';
		const byCode = new Map<string, Finding[]>();
		for (const finding of findings) byCode.set(finding.code, [...(byCode.get(finding.code) ?? []), finding]);
		const parts = [...byCode].map(([code, group]) => {
			const check = checks.get(code);
			const more = group.length - mostOfACode;
			return [
				`${check?.severity ?? ''}: ${check?.title ?? code} (${code}, ${group.length})`,
				...group.slice(0, mostOfACode).map(({ message }) => `  ${message}`),
				...(more > 0 ? [`  … and ${more} more; --json lists all`] : []),
				`  To mend: ${check?.mend ?? ''}`
			].join('\n');
		});
		const totals = [
			counted(counts.error, 'error'),
			counted(counts.warning, 'warning'),
			counted(counts.note, 'note')
		].join(', ');
		return [...parts, `${totals}.`, caution].join('\n\n');
	}
});

const caution =
	'A plan that passes here says nothing about locks, exits and alarms on site: local codes and the authority having jurisdiction decide.';
