import { copyFileSync, existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { homedir } from 'node:os';
import path from 'node:path';
import { root, runQuietly, say } from './run.mjs';

const modules = path.join(root, 'node_modules');
const addon = path.join(modules, 'better-sqlite3/build/Release/better_sqlite3.node');
const provenNote = path.join(modules, '.cache/doorwright/addon');

/** Installs what the lock file says where it is not installed, and makes SQLite's native addon fit this Node. */
export async function install() {
	const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
	if (major < 20 || (major === 20 && minor < 19)) {
		throw new Error(`Node 20.19 or newer is needed; this is ${process.versions.node}`);
	}
	if (!isInstalled()) {
		// Without scripts: the only one that matters compiles SQLite for minutes, and `fitAddon` can often spare that.
		// NODE_ENV=production would leave out what the build needs, hence --include=dev.
		const args = ['ci', '--ignore-scripts', '--include=dev', '--no-audit', '--no-fund', '--prefer-offline'];
		await npm('installing the packages that package-lock.json names', args);
	}
	await fitAddon();
}

/** Whether every package of package-lock.json is there in its version, by npm's own record of what it installed. */
function isInstalled() {
	const record = path.join(modules, '.package-lock.json');
	if (!existsSync(record)) return false;
	const installed = readPackages(record);
	return Object.entries(readPackages(path.join(root, 'package-lock.json'))).every(
		([name, { version, optional, extraneous }]) =>
			name === '' || optional || extraneous || installed[name]?.version === version
	);
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean, extraneous?: boolean }>} by folder
 */
function readPackages(file) {
	return JSON.parse(readFileSync(file, 'utf8')).packages;
}

/**
 * Compiling better-sqlite3 takes one to three minutes, so the result is kept outside of node_modules under everything
 * it depends on: its version, Node's binary interface, the platform and its C library.
 */
async function fitAddon() {
	const { version } = JSON.parse(readFileSync(path.join(modules, 'better-sqlite3/package.json'), 'utf8'));
	const key = ['better-sqlite3', version, process.versions.modules, process.platform, process.arch, libc()].join('-');
	if (existsSync(provenNote) && readFileSync(provenNote, 'utf8') === stateOf(key)) return;

	const kept = path.join(cacheFolder(), `${key}.node`);
	if (!addonLoads() && existsSync(kept)) {
		say('taking the SQLite addon compiled earlier');
		mkdirSync(path.dirname(addon), { recursive: true });
		copyFileSync(kept, addon);
	}
	if (!addonLoads()) {
		await npm('compiling SQLite for this Node (one to three minutes, once)', ['rebuild', 'better-sqlite3']);
		const problem = problemOfAddon();
		if (problem !== null) throw new Error(`the SQLite addon was compiled but does not load:\n${problem}`);
	}
	keep(kept);
	mkdirSync(path.dirname(provenNote), { recursive: true });
	writeFileSync(provenNote, stateOf(key));
}

/**
 * What was proven to load: the key, and the very file.
 * @param {string} key
 */
function stateOf(key) {
	if (!existsSync(addon)) return '';
	const { mtimeMs, size } = statSync(addon);
	return `${key} ${mtimeMs} ${size}`;
}

function addonLoads() {
	return problemOfAddon() === null;
}

/**
 * Opens a database in a process of its own, because an addon made for another Node may end the process.
 * @returns {string | null} what was said, null when it works
 */
function problemOfAddon() {
	if (!existsSync(addon)) return 'there is no compiled addon';
	const program = "new (require('better-sqlite3'))(':memory:').prepare('SELECT 1').get()";
	const { status, stderr } = spawnSync(process.execPath, ['-e', program], { cwd: root, encoding: 'utf8' });
	return status === 0 ? null : stderr;
}

/**
 * A cache that cannot be written only costs time later.
 * @param {string} kept
 */
function keep(kept) {
	if (existsSync(kept) && statSync(kept).size === statSync(addon).size) return;
	try {
		mkdirSync(path.dirname(kept), { recursive: true });
		copyFileSync(addon, `${kept}.${process.pid}`);
		renameSync(`${kept}.${process.pid}`, kept);
	} catch (error) {
		say(`the compiled addon could not be kept for later (${error instanceof Error ? error.message : error})`);
	}
}

function cacheFolder() {
	return path.join(process.env['XDG_CACHE_HOME'] || path.join(homedir(), '.cache'), 'doorwright');
}

function libc() {
	if (process.platform !== 'linux') return 'system';
	const { header } = /** @type {{ header: { glibcVersionRuntime?: string } }} */ (
		/** @type {unknown} */ (process.report.getReport())
	);
	return header.glibcVersionRuntime === undefined ? 'musl' : 'glibc';
}

/**
 * npm that started us, if one did; else the one on the path.
 * @param {string} purpose
 * @param {readonly string[]} args
 */
function npm(purpose, args) {
	const script = process.env['npm_execpath'];
	if (script !== undefined && /npm-cli\.c?js$/.test(script)) {
		return runQuietly(purpose, process.execPath, [script, ...args]);
	}
	return runQuietly(purpose, 'npm', args);
}
