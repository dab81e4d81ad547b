import { registryOf } from '../../kernel/registry';
import type { List } from './define-list';

/** Every list that can be taken out as a table, by its name. */
export const listsByName: ReadonlyMap<string, List> = registryOf(
	import.meta.glob<{ default: List }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-list.ts'], {
		eager: true
	}),
	(list) => list.name
);
