/** 18 years begin 6575 days after the birth, the longest that they can take; below it a patient is a child. */
export const adultFromDays = 6575;
