/**
 * Streams of server-sent events. Those that are open are known, because one would hold up the end of the server: it waits
 * for connections to close.
 * @source WHATWG HTML, section 9.2 (server-sent events)
 */
const open = new Set<() => void>();

/** Sends one event; `isLast` closes the stream after it. */
export type Send = (data: unknown, isLast?: boolean) => void;

/** How often a comment keeps a quiet connection alive. */
const millisecondsBetween = 15_000;

/**
 * A response that sends events as JSON. `begin` starts sending and gives the function that ends it, called once when the
 * stream closes from either side.
 */
export function eventStream(begin: (send: Send) => () => void): Response {
	const encoder = new TextEncoder();
	let end = (): void => undefined;
	let pulse: NodeJS.Timeout | undefined;
	let close = (): void => undefined;
	const over = (): void => {
		clearInterval(pulse);
		open.delete(close);
		end();
		end = () => undefined;
	};
	const body = new ReadableStream<Uint8Array>({
		start(controller) {
			const state = { isOpen: true };
			close = () => {
				if (!state.isOpen) return;
				state.isOpen = false;
				controller.close();
				over();
			};
			open.add(close);
			pulse = setInterval(() => controller.enqueue(encoder.encode(':\n\n')), millisecondsBetween);
			end = begin((data, isLast = false) => {
				if (!state.isOpen) return;
				controller.enqueue(encoder.encode(`data: ${JSON.stringify(data)}\n\n`));
				if (isLast) close();
			});
			// The last event may have been sent before there was anything to end.
			if (!state.isOpen) over();
		},
		// The reader left: the stream is closed already.
		cancel: over
	});
	return new Response(body, { headers: { 'content-type': 'text/event-stream', 'cache-control': 'no-store' } });
}

/** Closes every open stream, for the end of the server. */
export function closeEventStreams(): void {
	for (const close of [...open]) close();
}
