import type { TimetableMover } from './timetable-mover.svelte';

type Pressed = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'altKey' | 'metaKey' | 'target'>;

/** What keys do while somebody is held. @returns true when the key meant something */
export function moverKey(mover: TimetableMover, event: Pressed): boolean {
	if (!mover.held || event.ctrlKey || event.altKey || event.metaKey) return false;
	const act = actionOf(mover, event);
	act?.();
	return act !== undefined;
}

function actionOf(mover: TimetableMover, { key, shiftKey, target }: Pressed): (() => void) | undefined {
	const along = (step: 'earlier' | 'later') => () => {
		if (shiftKey) mover.leap(step);
		else mover.step(step);
	};
	switch (key) {
		case 'ArrowUp':
			return along('earlier');
		case 'ArrowDown':
			return along('later');
		case 'ArrowLeft':
			return () => mover.step('lane-before');
		case 'ArrowRight':
			return () => mover.step('lane-after');
		case 'PageUp':
			return () => carry(mover, -1);
		case 'PageDown':
			return () => carry(mover, 1);
		case 'Escape':
			return () => mover.putBack();
		case 'Enter':
		case ' ':
			// A button of the note does what it says.
			return target instanceof HTMLButtonElement ? undefined : () => void mover.drop();
		default:
			return undefined;
	}
}

function carry(mover: TimetableMover, by: 1 | -1): void {
	const date = mover.dateBeside(by);
	if (date === undefined) mover.said = 'No station is open on any date that way.';
	else void mover.carry(date);
}
