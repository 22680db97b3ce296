/** Reading plan texts brings a whole YAML reader along: apart, so that it is fetched only where a text is read. */
export { readPlan } from "@lentic/core/plan";
