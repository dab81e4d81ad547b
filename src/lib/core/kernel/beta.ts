/**
 * The beta distribution, from which intervals for shares and Student's t come. The incomplete beta function by its continued
 * fraction, evaluated by Lentz's method; quantiles by halving, which needs no start and cannot run away.
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 26.5.8 and 26.5.27; Lanczos (1964) for the gamma function
 */

const lanczos = [
	676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
	-0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7
];

/** Natural logarithm of the gamma function, for x > 0. */
export function logGamma(x: number): number {
	if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
	let sum = 0.9999999999998099;
	lanczos.forEach((weight, index) => (sum += weight / (x + index)));
	const shifted = x + 6.5;
	return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(shifted) - shifted + Math.log(sum);
}

/** The chance that a beta(a, b) variable is at most x; a and b above 0. */
export function betaAtMost(x: number, a: number, b: number): number {
	if (x <= 0) return 0;
	if (x >= 1) return 1;
	const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
	// The fraction converges fast on the side of the mean.
	return x < (a + 1) / (a + b + 2) ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(1 - x, b, a)) / b;
}

function fraction(x: number, a: number, b: number): number {
	const tiny = 1e-300;
	const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
	let c = 1;
	let d = 1 / away(1 - ((a + b) * x) / (a + 1));
	let result = d;
	for (let m = 1; m < 1000; m++) {
		const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
		d = 1 / away(1 + even * d);
		c = away(1 + even / c);
		result *= d * c;
		const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
		d = 1 / away(1 + odd * d);
		c = away(1 + odd / c);
		result *= d * c;
		if (Math.abs(d * c - 1) < 1e-15) break;
	}
	return result;
}

/** The x that a beta(a, b) variable stays at or under with a chance. */
export function betaQuantile(chance: number, a: number, b: number): number {
	let [low, high] = [0, 1];
	for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
		const middle = (low + high) / 2;
		if (betaAtMost(middle, a, b) < chance) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}

/** The t of Student's distribution with so many degrees of freedom that is not exceeded with a chance of 0.5 or more. */
export function studentQuantile(chance: number, freedom: number): number {
	// t² / (freedom + t²) is beta(1/2, freedom/2).
	const x = betaQuantile(2 * chance - 1, 0.5, freedom / 2);
	return Math.sqrt((freedom * x) / (1 - x));
}

/**
 * The two-sided interval of Clopper and Pearson for a share: never covers with less than the confidence asked for.
 * @source Clopper and Pearson, Biometrika 26 (1934)
 */
export function shareInterval(count: number, of: number, confidence: number): { low: number; high: number } {
	const tail = (1 - confidence) / 2;
	return {
		low: count === 0 ? 0 : betaQuantile(tail, count, of - count + 1),
		high: count === of ? 1 : betaQuantile(1 - tail, count + 1, of - count)
	};
}
