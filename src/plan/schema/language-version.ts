/** The version of the plan language this program reads. */
export const LANGUAGE_VERSION = 1;
