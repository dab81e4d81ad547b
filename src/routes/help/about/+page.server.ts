import { licenseTexts, shippedPackages } from './licenses';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ packages: shippedPackages, texts: licenseTexts });
