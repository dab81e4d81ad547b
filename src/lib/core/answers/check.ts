import { z } from 'zod';
import { checks } from '../checks';
import { type Checked, recheck } from '../checks/support/recheck';
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
const findingsAtOnce = 500;

export default defineAnswer<Record<string, never>, CheckAnswer>({
	name: 'check',
	summary: 'Everything wrong or doubtful in the access plan: locked-out shifts, missing routes, undecided holidays.',
	params: z.strictObject({}),
	async run(rollout, _params, work, memory) {
		const before = (memory?.get('checked') as Checked | undefined) ?? null;
		const { findings, checked } = await recheck(before, rollout, checks, work);
		if (checked) memory?.set('checked', checked);
		const counts = { error: 0, warning: 0, note: 0 };
		for (const { severity } of findings) counts[severity]++;
		return ok({ findings, counts });
	},
	isBad: ({ counts }) => counts.error > 0,
	/** In pieces: 20,000 people with a finding each for every day of two years are more than a text should hold. */
	*json({ findings, counts }) {
		yield '{"findings":[';
		for (let at = 0; at < findings.length; at += findingsAtOnce) {
			const piece = JSON.stringify(findings.slice(at, at + findingsAtOnce));
			yield `${at === 0 ? '' : ','}${piece.slice(1, -1)}`;
		}
		yield `],"counts":${JSON.stringify(counts)}}`;
	},
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
