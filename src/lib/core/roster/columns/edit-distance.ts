/**
 * Edits that make one word of another: a letter put in, left out, changed, or two neighbors swapped, each counting one
 * and no place edited twice. Gives `most + 1` as soon as it is known to be more than `most`.
 * @source optimal string alignment distance (Damerau 1964; Wagner and Fischer 1974), from memory
 */
export function editsBetween(a: string, b: string, most: number): number {
	if (Math.abs(a.length - b.length) > most) return most + 1;
	let twoAgo: number[] = [];
	let before = Array.from({ length: b.length + 1 }, (_, index) => index);
	for (let i = 1; i <= a.length; i++) {
		const row = [i];
		let least = i;
		for (let j = 1; j <= b.length; j++) {
			const isSame = a.charCodeAt(i - 1) === b.charCodeAt(j - 1);
			let edits = Math.min(at(before, j) + 1, at(row, j - 1) + 1, at(before, j - 1) + (isSame ? 0 : 1));
			const isSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
			if (isSwapped) edits = Math.min(edits, at(twoAgo, j - 2) + 1);
			row.push(edits);
			least = Math.min(least, edits);
		}
		if (least > most) return most + 1;
		twoAgo = before;
		before = row;
	}
	return Math.min(at(before, b.length), most + 1);
}

function at(row: readonly number[], index: number): number {
	return row[index] ?? Infinity;
}
