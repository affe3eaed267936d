/** 8 MB: a picture of a tablet's camera is 2 to 5. Common practice, no source. */
export const attachmentBytes = 8_000_000
