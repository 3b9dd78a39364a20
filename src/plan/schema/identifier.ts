/** An identifier starts with a letter, so that YAML never reads one as a number. Spaces are allowed inside. */
export const IDENTIFIER = "^[A-Za-z][A-Za-z0-9 ._/'-]*$";
