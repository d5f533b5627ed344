/** The version of this program, as package.json has it: what is kept for years says which one computed it. */
export const PROGRAM_VERSION = '0.1.0'
