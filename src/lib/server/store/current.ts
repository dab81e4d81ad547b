import path from 'node:path';
import { Store } from './store';

let current: Store | undefined;

/** The folder with everything that is kept: DOORWRIGHT_DATA, else `data` in the project. */
export function dataFolder(): string {
	return path.resolve(process.env['DOORWRIGHT_DATA'] || 'data');
}

/** The store of this server, opened on first use. Throws `UnusableFile` when the file cannot be used. */
export function store(): Store {
	return (current ??= new Store(dataFolder()));
}

/** Closes the store; it is opened anew on next use. */
export function closeStore(): void {
	current?.close();
	current = undefined;
}
