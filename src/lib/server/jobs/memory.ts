import type { Memory } from '../../core/answers/define-answer';
import type { Rollout } from '../../core/document/schema';

/** What questions remember of a state of a rollout: gone with the state, or passed on to the next. */
const memories = new WeakMap<Rollout, Memory>();

/** What is remembered of a state. */
export function memoryOf(rollout: Rollout): Memory {
	const memory = memories.get(rollout) ?? new Map<string, unknown>();
	memories.set(rollout, memory);
	return memory;
}

/** Passes on what is remembered of a state to the one that an edit made of it: only the latest remembers. */
export function passMemory(before: Rollout, after: Rollout): void {
	const memory = memories.get(before);
	if (!memory || before === after) return;
	memories.delete(before);
	memories.set(after, memory);
}
