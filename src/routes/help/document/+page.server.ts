import { documentReference } from './document-reference';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ sections: documentReference() });
