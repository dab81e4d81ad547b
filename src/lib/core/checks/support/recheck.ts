import { CoverageFinder } from '../../access/coverage';
import { AccessModel } from '../../access/model';
import type { Rollout } from '../../document/schema';
import { byCodeUnits } from '../../kernel/compare';
import type { Finding, Severity } from '../../kernel/finding';
import { isSameList } from '../../kernel/remembered';
import { type Work, unwatched } from '../../kernel/work';
import type { Case, Check, CheckInput } from '../define-check';
import { Kept } from './kept';

/**
 * Checks a state of a rollout, quicker when an earlier state was checked.
 *
 * The idea: an edit leaves everything that it does not touch the same object, so what depends on untouched objects alone is
 * taken over: what schedules do, what classes of people open and reach, whole checks, cases and their sentences. Invariant:
 * the findings are those of a check from nothing, in the same order; a property test says so. Our own.
 */

/** A state that was checked. Keep the latest only: it holds on to what the next can use, and to no earlier state. */
export interface Checked {
	/** Gravest first, then by code and subject. */
	readonly findings: readonly Finding[];
	readonly input: CheckInput;
	readonly told: ReadonlyMap<string, ToldCheck>;
}

/** A finding with the case from which it was made, and its place in the order of its check. */
interface Told {
	readonly made: Case;
	readonly finding: Finding;
	readonly key: string;
}

interface ToldCheck {
	readonly cases: readonly Case[];
	readonly dependsOn: readonly unknown[] | undefined;
	readonly tellsFrom: readonly unknown[] | undefined;
	/** Made when a later state asks for it first: a check from nothing needs none. */
	toldByCase: ReadonlyMap<Case, Told> | undefined;
	/** In order. */
	readonly told: readonly Told[];
	readonly findings: readonly Finding[];
}

const severities: readonly Severity[] = ['error', 'warning', 'note'];

/** What checks look at; `before` as in `recheck`. */
export function checkInputOf(rollout: Rollout, before?: CheckInput): CheckInput {
	const access = new AccessModel(rollout, undefined, rollout.people, before?.access);
	return { rollout, access, coverage: new CoverageFinder(access, before?.coverage), kept: new Kept(before?.kept) };
}

/**
 * Every finding of a rollout by the checks given. `before`: an earlier state that was checked by the same checks, null where
 * there is none. Cancelled, it gives what it found so far, which is nothing to go on from: null then stands for the state.
 */
export async function recheck(
	before: Checked | null,
	rollout: Rollout,
	checks: ReadonlyMap<string, Check>,
	work: Work = unwatched
): Promise<{ readonly findings: readonly Finding[]; readonly checked: Checked | null }> {
	const input = checkInputOf(rollout, before?.input);
	const told = new Map<string, ToldCheck>();
	for (const check of checks.values()) {
		if (work.isCancelled()) break;
		told.set(check.code, await tellAll(check, input, before?.told.get(check.code)));
		work.report(told.size, checks.size, check.title);
	}
	const findings = severities.flatMap((severity) =>
		[...told].flatMap(([code, { findings: ofCheck }]) => (checks.get(code)?.severity === severity ? ofCheck : []))
	);
	return { findings, checked: told.size === checks.size ? { findings, input, told } : null };
}

async function tellAll(check: Check, input: CheckInput, before: ToldCheck | undefined): Promise<ToldCheck> {
	const { rollout } = input;
	const dependsOn = check.dependsOn?.(rollout);
	if (before?.dependsOn && dependsOn && isSameList(before.dependsOn, dependsOn)) return before;
	const cases = await check.find(input);
	const tellsFrom = check.tellsFrom?.(rollout);
	const areNamesSame = before?.tellsFrom && tellsFrom && isSameList(before.tellsFrom, tellsFrom);
	if (areNamesSame && isSameList(before.cases, cases)) return { ...before, dependsOn };
	const known = areNamesSame ? (before.toldByCase ??= new Map(before.told.map((one) => [one.made, one]))) : none;
	const fresh: Told[] = [];
	let told = fresh;
	let toldByCase: Map<Case, Told> | undefined;
	if (known.size === 0) for (const made of cases) fresh.push(tell(check, made, rollout));
	else {
		const byCase = new Map<Case, Told>();
		for (const made of cases) {
			let one = known.get(made);
			if (!one) fresh.push((one = tell(check, made, rollout)));
			byCase.set(made, one);
		}
		// What stays is in order already, which sorting makes use of.
		told = [...(before?.told.filter(({ made }) => byCase.has(made)) ?? []), ...fresh];
		toldByCase = byCase;
	}
	told.sort((a, b) => byCodeUnits(a.key, b.key));
	return { cases, dependsOn, tellsFrom, toldByCase, told, findings: told.map(({ finding }) => finding) };
}

const none: ReadonlyMap<Case, Told> = new Map();

function tell(check: Check, made: Case, rollout: Rollout): Told {
	const dates = datesOf(made);
	return {
		made,
		key: `${JSON.stringify(made.subject)}\n${dates[0] ?? ''}`,
		finding: {
			code: check.code,
			severity: check.severity,
			message: check.message(made, rollout),
			subject: made.subject,
			dates,
			count: made.count ?? Math.max(1, dates.length)
		}
	};
}

/** The dates in order, each once; nearly always they are so already. */
function datesOf({ dates = [] }: Case): readonly string[] {
	const isInOrder = dates.every((date, place) => place === 0 || (dates[place - 1] as string) < date);
	return isInOrder ? dates : [...new Set(dates)].sort();
}
