/** The keys and places in the path of a fault, as text: `$.entry['a b'][2]` gives `entry`, `a b`, `2`. */
export function stepsInPath(path: string): string[] {
	const steps: string[] = [];
	for (const match of path.matchAll(/\.([A-Za-z_]\w*)|\[(\d+)\]|\['((?:[^'\\]|\\.)*)'\]/g)) {
		steps.push(match[1] ?? match[2] ?? (match[3] ?? '').replace(/\\(.)/g, '$1'));
	}
	return steps;
}
