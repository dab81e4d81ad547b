import { createHash, randomBytes } from 'node:crypto';
import { fault } from '../../core/kernel/fault';
import { load, noRollout } from '../open-rollouts';
import { type Outcome, refuse } from '../outcome';
import { store } from '../store/current';
import type { DirectorySettings, TokenRow } from '../store/directory-repository';

/** Tokens begin with this, so that a search for leaked secrets finds them. */
const mark = 'doorwright_scim_';

/** Makes a token; this is the only time that it is seen. What is kept is its SHA-256: 256 random bits need no slow hash. */
export function makeToken(rollout: string, label: string, who: string): Outcome<string> {
	if (!load(rollout)) return refuse('not-found', noRollout(rollout));
	const name = label.trim();
	if (name === '' || name.length > 80) {
		return refuse('invalid', fault(['value', 'label'], label, 'what the token is for, in at most 80 characters'));
	}
	const token = mark + randomBytes(32).toString('base64url');
	store().directory.addToken(rollout, hashOf(token), name, new Date().toISOString(), who);
	return { ok: true, value: token };
}

/** Ends a token at once. */
export function revokeToken(rollout: string, number: number, who: string): Outcome<null> {
	const isDone = store().directory.revokeToken(rollout, number, new Date().toISOString(), who);
	return isDone
		? { ok: true, value: null }
		: refuse('conflict', fault(['number'], number, 'the number of a token that is in use'));
}

/** The tokens of a rollout, the latest first. */
export function listTokens(rollout: string): readonly TokenRow[] {
	return store().directory.tokens(rollout);
}

/** The token that a request was sent with; its use is noted. */
export function tokenOf(rollout: string, token: string): TokenRow | undefined {
	const found = store().directory.tokenOf(rollout, hashOf(token));
	if (found) store().directory.noteUse(rollout, found.number, new Date().toISOString());
	return found;
}

/** How what arrives is handled. */
export function directorySettings(rollout: string): DirectorySettings {
	return store().directory.settings(rollout);
}

/** Changes how what arrives is handled; an address must be one of the web. */
export function setDirectorySettings(rollout: string, settings: DirectorySettings): Outcome<null> {
	if (!load(rollout)) return refuse('not-found', noRollout(rollout));
	const { address } = settings;
	if (address !== null && !isWebAddress(address)) {
		return refuse('invalid', fault(['value', 'address'], address, 'an address like https://doors.example'));
	}
	store().directory.setSettings(rollout, { ...settings, address: address?.replace(/\/+$/, '') ?? null });
	return { ok: true, value: null };
}

function isWebAddress(text: string): boolean {
	if (!/^https?:\/\/[^\s?#]+$/.test(text)) return false;
	return URL.canParse(text);
}

function hashOf(token: string): string {
	return createHash('sha256').update(token).digest('hex');
}
