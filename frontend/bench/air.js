/** From what relative humidity on a fizz is not mixed, in %. bench/air.py says where it is from. */
export const FIZZ_STOP_RH = 65;
