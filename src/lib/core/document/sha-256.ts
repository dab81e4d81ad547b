/**
 * SHA-256 of bytes, as 64 hexadecimal digits. Written here because the core runs in the browser too, where the built-in
 * one is asynchronous and absent without a secure connection. One pass over blocks of 64 bytes.
 * @source FIPS 180-4, sections 4.2.2 (constants), 5.1.1 (padding) and 6.2 (computation)
 */
export function sha256(bytes: Uint8Array): string {
	const hash = Int32Array.from(firstRoots(8, 1 / 2));
	const schedule = new Int32Array(64);
	const whole = bytes.length - (bytes.length % 64);
	const blocks = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	for (let at = 0; at < whole; at += 64) addBlock(hash, schedule, blocks, at);
	const rest = padded(bytes.subarray(whole), bytes.length);
	for (let at = 0; at < rest.byteLength; at += 64) addBlock(hash, schedule, rest, at);
	return [...hash].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** The last bytes, a one bit, zeros, and the length in bits: a whole number of blocks. */
function padded(rest: Uint8Array, length: number): DataView {
	const bytes = new Uint8Array(rest.length < 56 ? 64 : 128);
	bytes.set(rest);
	bytes[rest.length] = 0x80;
	const view = new DataView(bytes.buffer);
	view.setUint32(bytes.length - 8, Math.floor(length / 2 ** 29));
	view.setUint32(bytes.length - 4, (length * 8) >>> 0);
	return view;
}

function addBlock(hash: Int32Array, schedule: Int32Array, blocks: DataView, at: number): void {
	for (let t = 0; t < 16; t++) schedule[t] = blocks.getInt32(at + t * 4);
	for (let t = 16; t < 64; t++) {
		const early = schedule[t - 15] as number;
		const late = schedule[t - 2] as number;
		const small0 = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
		const small1 = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
		schedule[t] = ((schedule[t - 16] as number) + small0 + (schedule[t - 7] as number) + small1) | 0;
	}
	let [a, b, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
	for (let t = 0; t < 64; t++) {
		const large1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
		const choice = (e & f) ^ (~e & g);
		const one = (h + large1 + choice + (constants[t] as number) + (schedule[t] as number)) | 0;
		const large0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
		const majority = (a & b) ^ (a & c) ^ (b & c);
		h = g;
		g = f;
		f = e;
		e = (d + one) | 0;
		d = c;
		c = b;
		b = a;
		a = (one + large0 + majority) | 0;
	}
	const sums = [a, b, c, d, e, f, g, h];
	for (let i = 0; i < 8; i++) hash[i] = ((hash[i] as number) + (sums[i] as number)) | 0;
}

function turned(word: number, bits: number): number {
	return (word >>> bits) | (word << (32 - bits));
}

/** The first 32 bits of the fractional parts of the roots of the first primes: square roots for 1/2, cube roots for 1/3. */
function firstRoots(count: number, power: number): number[] {
	const primes: number[] = [];
	for (let n = 2; primes.length < count; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
	return primes.map((prime) => {
		const root = prime ** power;
		return Math.floor((root - Math.floor(root)) * 2 ** 32) | 0;
	});
}

const constants = Int32Array.from(firstRoots(64, 1 / 3));
