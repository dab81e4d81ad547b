import { exportsByName } from '$lib/core/exports';
import type { Export, ExportInput, ExportedFile } from '$lib/core/exports/define-export';
import type { AppointmentRecord } from '../core/exports/support/appointments';
import { fault } from '../core/kernel/fault';
import { nearestName } from '../core/kernel/nearest';
import { appointmentRecord, noteTaken } from './appointment-record';
import { todayAt } from './clock';
import type { OpenRollout } from './open-rollouts';
import { type Outcome, refuse } from './outcome';

/** The exports of a rollout with their files; one of them only where `name` is given. */
export function exportFiles(
	open: OpenRollout,
	name?: string
): { readonly entry: Export; readonly files: readonly ExportedFile[] }[] {
	const input = exportInput(open);
	return [...exportsByName.values()]
		.filter((entry) => name === undefined || entry.name === name)
		.map((entry) => ({ entry, files: entry.files(input) }));
}

function exportInput(open: OpenRollout): ExportInput {
	const { document, rollout } = open;
	let record: AppointmentRecord | undefined;
	return {
		document,
		rollout,
		madeAt: Date.now(),
		today: todayAt(rollout.site.timeZone),
		get record() {
			return (record ??= appointmentRecord(open));
		}
	};
}

/** A file of an export by its name, with a fault that names the nearest where there is none. */
export function findExportFile(open: OpenRollout, name: string, file: string): Outcome<ExportedFile> {
	const found = exportFiles(open, name).at(0);
	if (!found) {
		const names = [...exportsByName.keys()];
		return refuse(
			'not-found',
			fault(['export'], name, `one of the exports ${names.join(', ')}`, nearestName(name, names))
		);
	}
	const { appointments } = found.entry;
	const one = found.files.find((each) => each.name === file) ?? found.entry.unlisted?.(exportInput(open), file);
	if (one && appointments) {
		const content = () => {
			noteTaken(open, appointments);
			return one.content();
		};
		return { ok: true, value: { ...one, content } };
	}
	if (one) return { ok: true, value: one };
	const names = found.files.map((each) => each.name);
	const expected =
		names.length === 0 ? 'a file; there is nothing to write yet' : `one of the files ${names.join(', ')}`;
	return refuse('not-found', fault(['file'], file, expected, nearestName(file, names)));
}

/** The type of a file as HTTP tells it. */
export function contentType({ type }: Pick<ExportedFile, 'type'>): string {
	return type === 'application/zip' ? type : `${type}; charset=utf-8`;
}
