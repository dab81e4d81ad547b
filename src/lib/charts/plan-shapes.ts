import type { Rect } from './scale';

/** A room of the plan. */
export interface Room {
	readonly id: string;
	/** The name in lines that fit. */
	readonly lines: readonly string[];
	readonly rect: Rect;
	/** More ground of an area outside that lies around the building. */
	readonly ground: readonly Rect[];
	readonly isOutside: boolean;
	/** No chain of doors leads here from outside. */
	readonly isCutOff: boolean;
	/** Doors that could not be put on a wall, told inside the room. */
	readonly callouts: readonly Callout[];
}

export interface Callout {
	readonly door: string;
	readonly number: number;
	/** Name of the area at the other side. */
	readonly other: string;
}

/** A door on the wall between its two rooms. */
export interface DoorOnWall {
	readonly id: string;
	/** Its number on the plan: its place in the list, from 1. */
	readonly number: number;
	/** Middle of the opening. */
	readonly x: number;
	readonly y: number;
	/** The way from its `from` into its `to`. */
	readonly facing: 'right' | 'left' | 'down' | 'up';
	readonly isExitFree: boolean;
}

/** On which of its walls a room has its doors to the area that lies around the building. */
export interface OuterWall {
	readonly around: string;
	readonly side: 'left' | 'right' | 'top' | 'bottom';
}

/** Wall that one door takes: the opening, its number, and room on both sides. */
export const doorSlot = 72;

/** A name in lines of about sixteen characters; words are not broken. */
export function wrapped(name: string, most = 16): string[] {
	const lines: string[] = [];
	for (const word of name.split(/\s+/)) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + 1 + word.length <= most) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines;
}
