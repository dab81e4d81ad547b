import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { endServer } from '../../src/lib/server/start';

/** Gives the server a data folder of its own; the function that comes back closes the database and removes the folder. */
export function useDataFolder(): { readonly folder: string; readonly end: () => void } {
	const folder = mkdtempSync(path.join(tmpdir(), 'doorwright-'));
	process.env['DOORWRIGHT_DATA'] = folder;
	return {
		folder,
		end() {
			endServer();
			delete process.env['DOORWRIGHT_DATA'];
			rmSync(folder, { recursive: true, force: true });
		}
	};
}
