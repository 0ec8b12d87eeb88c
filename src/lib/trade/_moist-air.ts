/**
 * Properties of moist air at ordinary pressure: ASHRAE Handbook Fundamentals 2017, chapter 1, by equation number. Differences of vapour
 * pressures are what evaporation is made of, so the finer Hyland and Wexler form stands here, not the Magnus form of the dew point,
 * which is 0.3 % low at 25 C.
 */

/** Standard atmosphere at sea level. At 1500 m evaporation is some tenth faster: far less than the formulas differ. */
export const PRESSURE_PA = 101_325;
const KELVIN = 273.15;
const TRIPLE_POINT_C = 0.01;

/** Saturation vapour pressure in Pa, over ice below the triple point (eq. 5), over water above (eq. 6); -100 to 200 C. */
export function saturationPa(tempC: number): number {
  const t = tempC + KELVIN;
  const ln =
    tempC <= TRIPLE_POINT_C
      ? -5.6745359e3 / t +
        6.3925247 -
        9.677843e-3 * t +
        6.2215701e-7 * t ** 2 +
        2.0747825e-9 * t ** 3 -
        9.484024e-13 * t ** 4 +
        4.1635019 * Math.log(t)
      : -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t ** 2 - 1.4452093e-8 * t ** 3 + 6.5459673 * Math.log(t);
  return Math.exp(ln);
}

/** Humidity ratio, kg of vapour in a kg of dry air (eq. 20). */
export function humidityRatio(vapourPa: number): number {
  return (0.621945 * vapourPa) / (PRESSURE_PA - vapourPa);
}

/** Density of the dry air in moist air, kg/m3: one over the specific volume for each kg of dry air (eq. 26). */
export function dryAirDensity(tempC: number, ratio: number): number {
  return PRESSURE_PA / (287.042 * (tempC + KELVIN) * (1 + 1.607858 * ratio));
}

/** Humidity ratio of air at `airC` whose wet bulb stands at `wetBulbC` (eq. 33 above freezing, 35 below). */
export function ratioFromWetBulb(airC: number, wetBulbC: number): number {
  const saturated = humidityRatio(saturationPa(wetBulbC));
  return wetBulbC >= 0
    ? ((2501 - 2.326 * wetBulbC) * saturated - 1.006 * (airC - wetBulbC)) / (2501 + 1.86 * airC - 4.186 * wetBulbC)
    : ((2830 - 0.24 * wetBulbC) * saturated - 1.006 * (airC - wetBulbC)) / (2830 + 1.86 * airC - 2.1 * wetBulbC);
}
