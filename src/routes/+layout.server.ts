import { colorSetCookie, readColorSet } from '$lib/components/sheet/color-set';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = ({ cookies }) => ({ colorSet: readColorSet(cookies.get(colorSetCookie)) });
