/** Session settings under which a value always has the same text, on any server. */
export const textSettings =
  '-c TimeZone=UTC -c DateStyle=ISO,YMD -c IntervalStyle=postgres -c bytea_output=hex -c extra_float_digits=1 -c client_encoding=UTF8'
