declare global {
	namespace App {
		interface Locals {
			/** The name under which changes are recorded. Until there are accounts it is taken on trust from a cookie. */
			actor: string;
		}
		interface Error {
			message: string;
			/** Names one unexpected failure in the server's log; shown to people so that they can report it. */
			id?: string;
		}
	}
}

export {};
