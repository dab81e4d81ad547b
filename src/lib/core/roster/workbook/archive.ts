import { Inflate } from 'fflate/browser';
import { crc32 } from './crc32';

/**
 * A zip archive in memory: what is in it by its central directory, and each part when it is asked for. A part is
 * unpacked piece by piece, never beyond the size that the directory gives for it, and held to its checksum: a part that
 * was made to fill the memory, or that was damaged on the way, is refused and not half read.
 * @source APPNOTE.TXT 6.3.10: 4.3.7 (local header), 4.3.12 (central directory), 4.3.16 (its end), 4.5.3 (Zip64)
 */
export interface Archive {
	readonly names: readonly string[];
	/** The bytes of a part, undefined where there is none. Throws `ArchiveFault`. */
	read(name: string): Uint8Array | undefined;
}

/** Why an archive cannot be read, in the words that follow "found". */
export class ArchiveFault extends Error {}

interface Entry {
	readonly name: string;
	readonly isEncrypted: boolean;
	readonly method: number;
	readonly checksum: number;
	readonly packed: number;
	readonly size: number;
	readonly offset: number;
}

/** How much may come out of an archive, all parts that are read taken together, in bytes; and how many parts it may have. */
export const largestArchive = { bytes: 384 * 1024 * 1024, parts: 20_000 };

const cutOff = 'a zip archive whose end is missing, so that it is cut off';
const damaged = 'a damaged zip archive';

/** Opens an archive. Throws `ArchiveFault` where its directory cannot be read. */
export function openArchive(bytes: Uint8Array): Archive {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	const entries = new Map<string, Entry>();
	for (const entry of directoryOf(bytes, view)) entries.set(partName(entry.name), entry);
	let left = largestArchive.bytes;
	return {
		names: [...entries.keys()],
		read(name) {
			const entry = entries.get(partName(name));
			if (entry === undefined) return undefined;
			left -= entry.size;
			if (left < 0) throw new ArchiveFault(`a zip archive that unpacks to more than ${largestArchive.bytes} bytes`);
			return unpacked(bytes, view, entry);
		}
	};
}

/** Names of parts are compared without case, and some writers put backslashes. @source ECMA-376 part 2, 6.2.2.3 */
function partName(name: string): string {
	return name.replaceAll('\\', '/').replace(/^\//, '').toLowerCase();
}

function directoryOf(bytes: Uint8Array, view: DataView): Entry[] {
	const end = endOfDirectory(view);
	let { count, offset } = countAndOffset(view, end);
	if (count > largestArchive.parts) throw new ArchiveFault(`a zip archive of ${count} parts`);
	const entries: Entry[] = [];
	for (; count > 0; count--) {
		if (offset + 46 > end || view.getUint32(offset, true) !== 0x02014b50) throw new ArchiveFault(damaged);
		const nameLength = view.getUint16(offset + 28, true);
		const extraLength = view.getUint16(offset + 30, true);
		const next = offset + 46 + nameLength + extraLength + view.getUint16(offset + 32, true);
		if (next > end) throw new ArchiveFault(damaged);
		const sizes = sizesOf(view, offset, offset + 46 + nameLength, extraLength);
		entries.push({
			name: new TextDecoder().decode(bytes.subarray(offset + 46, offset + 46 + nameLength)),
			isEncrypted: (view.getUint16(offset + 8, true) & 1) !== 0,
			method: view.getUint16(offset + 10, true),
			checksum: view.getUint32(offset + 16, true),
			...sizes
		});
		offset = next;
	}
	return entries;
}

/** The record at the end of an archive stands before a comment of up to 65,535 bytes. */
function endOfDirectory(view: DataView): number {
	for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 0xffff); at--) {
		if (view.getUint32(at, true) === 0x06054b50 && at + 22 + view.getUint16(at + 20, true) <= view.byteLength)
			return at;
	}
	throw new ArchiveFault(cutOff);
}

function countAndOffset(view: DataView, end: number): { count: number; offset: number } {
	const count = view.getUint16(end + 10, true);
	const offset = view.getUint32(end + 16, true);
	if (count !== 0xffff && offset !== 0xffffffff) return { count, offset };
	const locator = end - 20;
	if (locator < 0 || view.getUint32(locator, true) !== 0x07064b50) return { count, offset };
	const at = Number(view.getBigUint64(locator + 8, true));
	if (at + 56 > end || view.getUint32(at, true) !== 0x06064b50) throw new ArchiveFault(damaged);
	return { count: Number(view.getBigUint64(at + 32, true)), offset: Number(view.getBigUint64(at + 48, true)) };
}

function sizesOf(view: DataView, header: number, extra: number, extraLength: number) {
	let packed = view.getUint32(header + 20, true);
	let size = view.getUint32(header + 24, true);
	let offset = view.getUint32(header + 42, true);
	if (packed !== 0xffffffff && size !== 0xffffffff && offset !== 0xffffffff) return { packed, size, offset };
	for (let at = extra; at + 4 <= extra + extraLength; at += 4 + view.getUint16(at + 2, true)) {
		if (view.getUint16(at, true) !== 1) continue;
		let field = at + 4;
		const next = (): number => {
			if (field + 8 > extra + extraLength) throw new ArchiveFault(damaged);
			field += 8;
			return Number(view.getBigUint64(field - 8, true));
		};
		if (size === 0xffffffff) size = next();
		if (packed === 0xffffffff) packed = next();
		if (offset === 0xffffffff) offset = next();
		break;
	}
	return { packed, size, offset };
}

function unpacked(bytes: Uint8Array, view: DataView, entry: Entry): Uint8Array {
	const { isEncrypted, method, offset, packed, size, checksum } = entry;
	if (isEncrypted) throw new ArchiveFault('a zip archive that is locked with a password');
	if (method !== 0 && method !== 8)
		throw new ArchiveFault(`a zip archive packed in a way that is not read (${method})`);
	if (offset + 30 > bytes.length || view.getUint32(offset, true) !== 0x04034b50) throw new ArchiveFault(damaged);
	const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
	if (start + packed > bytes.length) throw new ArchiveFault(cutOff);
	const data = bytes.subarray(start, start + packed);
	const part = method === 0 ? data : inflated(data, size);
	if (part.length !== size || crc32(part) !== checksum) throw new ArchiveFault(damaged);
	return part;
}

/** So many packed bytes are unpacked at once, so that what comes out of them stays small. */
const step = 16_384;

function inflated(data: Uint8Array, size: number): Uint8Array {
	const part = new Uint8Array(size);
	let filled = 0;
	const inflate = new Inflate((piece) => {
		if (filled + piece.length > size) throw new ArchiveFault(damaged);
		part.set(piece, filled);
		filled += piece.length;
	});
	try {
		for (let at = 0; at < data.length; at += step) inflate.push(data.subarray(at, at + step), at + step >= data.length);
	} catch {
		throw new ArchiveFault(damaged);
	}
	return filled === size ? part : part.subarray(0, filled);
}
