import { type VerifiedRecord, readHead, shownHead, verifyRecord } from '../lib/core/document/verify-record';
import { type Fault, fault } from '../lib/core/kernel/fault';
import type { Call } from './call';
import type { Io } from './io';
import { type Outcome, ofCall } from './outcome';

/** Verifies the change records of a data folder. */
export async function verifyRecordCommand(call: Call, io: Io): Promise<Outcome> {
	const faults: Fault[] = [
		...call.faults,
		...call.words.map((word) => fault(['file'], word, 'no file: a data folder is named by --data'))
	];
	const rollout = call.values.get('rollout');
	const printed = call.values.get('head');
	const head = printed === undefined ? undefined : readHead(printed);
	if (head && !head.ok) faults.push(...head.faults);
	if (printed !== undefined && rollout === undefined) {
		faults.push(fault(['rollout'], undefined, 'the id of the rollout whose head this is'));
	}
	if (faults.length > 0) return { kind: 'faults', faults: ofCall(faults) };
	const records = await io.readRecords(call.values.get('data'), rollout);
	if (!records.ok) return { kind: 'faults', faults: ofCall(records.faults) };
	const verified = records.value.map((record) => verifyRecord(record, head?.ok ? head.value : undefined));
	return {
		kind: 'value',
		json: [JSON.stringify({ records: verified })],
		text: () => (verified.length === 0 ? 'No rollout is in this data folder.' : verified.map(textOf).join('\n\n')),
		isBad: verified.some(({ breaks }) => breaks.length > 0)
	};
}

function textOf({ rollout, changes, head, breaks, clockSetBack }: VerifiedRecord): string {
	const count = changes === 1 ? '1 change' : `${changes} changes`;
	return [
		`${rollout}: ${count}, head ${head ? `${shownHead(head)} (in full ${head.hash})` : 'none'}`,
		...(breaks.length === 0 ? ['  The record fits.'] : breaks.map(({ message }) => `  ${message}`)),
		...clockSetBack.map(
			({ change, at, previousAt }) =>
				`  Change ${change}, ${at}, is dated before the one that it follows, ${previousAt}: a clock was set back.`
		)
	].join('\n');
}
