import { registryOf } from '../../kernel/registry';
import type { Paper } from '../define-paper';

/** Every paper by its id, which is also its address. */
export const papers: ReadonlyMap<string, Paper> = registryOf(
	import.meta.glob<{ default: Paper }>(['./*.ts', '!./*.test.ts', '!./index.ts'], { eager: true }),
	(paper) => paper.id
);
