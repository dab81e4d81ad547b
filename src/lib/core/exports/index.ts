import { registryOf } from '../kernel/registry';
import type { Export } from './define-export';

/** Every export, by its name. */
export const exportsByName: ReadonlyMap<string, Export> = registryOf(
	import.meta.glob<{ default: Export }>(['./*.ts', '!./*.test.ts', '!./index.ts', '!./define-export.ts'], {
		eager: true
	}),
	(entry) => entry.name
);
