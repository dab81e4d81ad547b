/**
 * A stretch of a day, `07:00-19:00`, in minutes after local midnight: start inclusive (0 to 1439), end exclusive. An end
 * at or before its start runs past midnight and is held as minutes beyond 1440; a whole day is 0 to 1440.
 */
export interface Stretch {
	readonly from: number;
	readonly to: number;
	/** As it was written. */
	readonly text: string;
}

const form = /^([01]\d|2[0-3]):([0-5]\d)-(?:([01]\d|2[0-3]):([0-5]\d)|24:00)$/;

/**
 * Reads a stretch; undefined when the text is none. `24:00` is an end only.
 * @example readStretch('22:00-06:00') // { from: 1320, to: 1800, text: '22:00-06:00' }
 */
export function readStretch(text: string): Stretch | undefined {
	const match = form.exec(text);
	if (!match) return undefined;
	const from = Number(match[1]) * 60 + Number(match[2]);
	const end = match[3] === undefined ? 1440 : Number(match[3]) * 60 + Number(match[4]);
	return { from, to: end <= from ? end + 1440 : end, text };
}

/** Takes text for a stretch; throws when it is none. For text from outside, ask `readStretch`. */
export function stretch(text: string): Stretch {
	const read = readStretch(text);
	if (!read) throw new RangeError(`${JSON.stringify(text)} is no stretch like 07:00-19:00`);
	return read;
}

/** Minutes after midnight as `HH:MM`; 1440 is `24:00`, later minutes are those of the next date. */
export function clockText(minutes: number): string {
	const inDay = minutes === 1440 ? 1440 : minutes % 1440;
	return `${String(Math.floor(inDay / 60)).padStart(2, '0')}:${String(inDay % 60).padStart(2, '0')}`;
}
