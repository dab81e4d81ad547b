import type { StoredRecord } from '../lib/core/document/verify-record';
import type { Rollout } from '../lib/core/document/schema';
import type { Result } from '../lib/core/kernel/result';

/** A question that may take seconds, for a thread of its own. */
export interface LongQuestion {
	readonly answer: string;
	readonly params: unknown;
	readonly rollout: Rollout;
}

export interface Progress {
	readonly done: number;
	readonly total: number;
	readonly note: string | null;
}

/** A long question that is being answered. */
export interface Asked {
	readonly result: Promise<Result<unknown>>;
	/** Asks it to end soon with the best that it has. */
	stop(): void;
}

/** The world around the command line. Tests hand in one of their own. */
export interface Io {
	/** The bytes of a file; rejects with the system's error. */
	readFile(path: string): Promise<Uint8Array>;
	/** All of standard input. */
	readStdin(): Promise<Uint8Array>;
	/** Writes to standard output, and waits until it is written: a large answer must not be cut off by the end. */
	out(text: string): Promise<void>;
	/** Writes to standard error. */
	err(text: string): Promise<void>;
	/** True when somebody watches standard error, and not a file or another program. */
	readonly isWatched: boolean;
	/** Asks a long question without keeping this thread from hearing what else happens. */
	ask(question: LongQuestion, onProgress: (news: Progress) => void): Promise<Asked>;
	/** Calls back at the first Ctrl-C instead of ending the program; gives the function that undoes this. */
	onInterrupt(react: () => void): () => void;
	/** The change records in a data folder, the present one where none is named; only that of one rollout where an id is given. */
	readRecords(folder: string | undefined, rollout: string | undefined): Promise<Result<readonly StoredRecord[]>>;
	/** Serves the app until it is ended. */
	serve(): Promise<number>;
}
