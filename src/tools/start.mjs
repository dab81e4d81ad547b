import { existsSync, mkdirSync } from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { root, say } from './run.mjs';

// The server: node src/tools/start.mjs, after everything is built. Until there are accounts it answers this machine
// only, under its own names, so that neither the network nor a foreign page in the browser can reach the data.

const loopback = '127.0.0.1';
const ownNames = new Set([loopback, 'localhost', '[::1]']);
const usualPort = 4786;
const largestUpload = 60_000_000;
const patienceMs = 3_000;

process.chdir(root);
process.env['NODE_ENV'] ??= 'production';
process.env['DOORWRIGHT_DATA'] = path.resolve(root, process.env['DOORWRIGHT_DATA'] || 'data');
// The address of a request is what it was sent to, not what the environment or a header of its own says.
delete process.env['ORIGIN'];
process.env['PROTOCOL_HEADER'] = 'x-forwarded-proto';
process.env['HOST_HEADER'] = 'host';
process.env['BODY_SIZE_LIMIT'] = String(largestUpload);

const handlerFile = path.join(root, 'build/app/handler.js');
if (!existsSync(handlerFile)) {
	say('the app is not built; npm start builds it');
	process.exit(1);
}
// What is kept here is about people: for the owner's eyes only.
mkdirSync(process.env['DOORWRIGHT_DATA'], { recursive: true, mode: 0o700 });
const { handler } = await load();

/**
 * Loads the app, which opens the database. A database that cannot be used is a thing to tell in a sentence.
 * @returns {Promise<{ handler: (req: http.IncomingMessage, res: http.ServerResponse, next: () => void) => void }>}
 */
async function load() {
	try {
		return await import(pathToFileURL(handlerFile).href);
	} catch (error) {
		const isFault = error instanceof Error && error.name === 'UnusableFile';
		say(`the app does not start: ${isFault ? error.message : error instanceof Error ? error.stack : error}`);
		process.exit(1);
	}
}

/**
 * Answers still being written.
 * @type {Set<http.ServerResponse>}
 */
const open = new Set();

const server = http.createServer((request, response) => {
	open.add(response);
	response.once('close', () => open.delete(response));
	response.setHeader('x-content-type-options', 'nosniff');
	response.setHeader('cross-origin-resource-policy', 'same-origin');
	const name = (request.headers.host ?? '').replace(/:\d+$/, '');
	if (!ownNames.has(name)) {
		const expected = 'localhost or 127.0.0.1: until there are accounts, nothing else is served';
		refuse(request, response, 421, 'host', name, expected);
		return;
	}
	const length = Number(request.headers['content-length'] ?? 0);
	if (length > largestUpload) {
		const expected = `at most ${largestUpload} bytes`;
		refuse(request, response, 413, 'upload', `${length} bytes`, expected);
		return;
	}
	delete request.headers['x-forwarded-host'];
	request.headers['x-forwarded-proto'] = 'http';
	handler(request, response, () => response.writeHead(404).end());
});

/**
 * Refuses in the form that the asker understands, and reads the rest of the request away so that the answer is seen.
 * @param {http.IncomingMessage} request
 * @param {http.ServerResponse} response
 * @param {number} status
 * @param {string} what
 * @param {string} value
 * @param {string} expected
 */
function refuse(request, response, status, what, value, expected) {
	const sentence = `Refused: the ${what} is ${value}, expected is ${expected}. Nothing was changed.`;
	const fault = { path: `$.${what}`, value, expected, message: sentence };
	const isForm = request.headers['x-sveltekit-action'] !== undefined;
	const isPage = !isForm && String(request.headers.accept).includes('text/html');
	const answer = isForm ? { type: 'error', error: { message: sentence } } : { faults: [fault] };
	const text = isPage ? sentence : JSON.stringify(answer);
	response.writeHead(status, {
		'content-type': isPage ? 'text/plain; charset=utf-8' : 'application/json',
		'content-length': Buffer.byteLength(text),
		connection: 'close'
	});
	response.write(text);
	// Closed under a browser that still sends, it would show an error of its own in place of this answer.
	request.resume().once('close', () => response.end());
}

/** @param {number} port */
function listen(port) {
	return new Promise((resolve, reject) => {
		server.once('error', reject);
		server.listen(port, loopback, () => {
			server.off('error', reject);
			resolve(undefined);
		});
	});
}

/** The port that PORT names, else the usual one, else any that is free. */
async function findPort() {
	const wanted = process.env['PORT'];
	if (wanted) {
		if (!/^\d{1,5}$/.test(wanted) || Number(wanted) > 65_535) throw new Error(`PORT is ${wanted}, not a port number`);
		await listen(Number(wanted));
		return;
	}
	try {
		await listen(usualPort);
	} catch {
		await listen(0);
	}
}

/**
 * Ends in order: running work is told first (`doorwright:stopping`), the database closes when nobody asks any more
 * (`sveltekit:shutdown`).
 * @param {NodeJS.Signals} signal
 */
function stop(signal) {
	/** @type {import('node:events').EventEmitter} */
	const listeners = process;
	listeners.emit('doorwright:stopping', signal);
	server.close(() => {
		listeners.emit('sveltekit:shutdown', signal);
		process.exit(0);
	});
	server.closeIdleConnections();
	// An event stream has no end of its own; every other answer is given a moment to be finished.
	for (const response of open) {
		if (String(response.getHeader('content-type')).startsWith('text/event-stream')) response.destroy();
	}
	setTimeout(() => server.closeAllConnections(), patienceMs).unref();
	say(`ending on ${signal}`);
}

try {
	await findPort();
} catch (error) {
	const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
	say(isTaken ? `port ${process.env['PORT']} is in use by another program` : String(error));
	process.exit(1);
}
process.once('SIGTERM', stop);
process.once('SIGINT', stop);
const address = server.address();
const port = typeof address === 'object' && address !== null ? address.port : 0;
process.stdout.write(
	`Doorwright serves http://${loopback}:${port} and listens on this machine only, until there are accounts.\n`
);
