import type { QuantityKind, Rational, UnitSystem } from './quantity-types.ts'
import { divide, fromDecimalText, multiply, one, zero } from './rational.ts'

/** One unit. A value in the kind's base unit is `value × factor + offset`. */
export interface Unit {
  /** As printed. */
  readonly symbol: string
  /** As people type it; the symbol is one of them. */
  readonly spellings: readonly string[]
  /** UCUM code; empty for what UCUM does not know. */
  readonly ucum: string
  readonly kind: QuantityKind
  readonly system: UnitSystem
  readonly factor: Rational
  readonly offset: Rational
  /** Symbol of the unit that the trade reads in the other system. */
  readonly counterpart?: string
  /** Printed for any number but 1, where the symbol is a word. */
  readonly plural?: string
}

type Row = readonly [
  symbol: string,
  ucum: string,
  system: UnitSystem,
  counterpart: string,
  factor: Rational,
  spellings: string,
  offset?: Rational,
]

/*
 * Factors: NIST Special Publication 811 (2008), appendix B, exact values; the same as in Unicode CLDR units.
 * Pound 0.453 592 37 kg, inch 25.4 mm, standard gravity 9.806 65 m/s², US gallon 231 in³, imperial gallon 4.546 09 L.
 */
const GRAVITY = '9.80665'
const POUND = '0.45359237'
const INCH = '0.0254'
const FOOT = '0.3048'
const US_GALLON = '0.003785411784'
const IMPERIAL_GALLON = '0.00454609'
const POUND_FORCE = by(POUND, GRAVITY)
/** π cut after 40 decimals: angles in radians are right to one part in 10^40, and only those carry an error at all. */
const PI = by('3.1415926535897932384626433832795028841971')

const rowsByKind: Readonly<Record<QuantityKind, readonly Row[]>> = {
  number: [['', '1', 'both', '', one, '']],
  length: [
    ['mm', 'mm', 'metric', 'in', by('0.001'), 'millimetre|millimetres|millimeter|millimeters'],
    ['cm', 'cm', 'metric', 'in', by('0.01'), 'centimetre|centimetres|centimeter|centimeters'],
    ['m', 'm', 'metric', 'ft', one, 'metre|metres|meter|meters'],
    ['km', 'km', 'metric', 'mi', by('1000'), 'kilometre|kilometres|kilometer|kilometers'],
    ['µm', 'um', 'metric', 'in', by('0.000001'), 'um|micron|microns|micrometre|micrometres'],
    ['in', '[in_i]', 'inch', 'mm', by(INCH), 'inch|inches|"|”'],
    ['ft', '[ft_i]', 'inch', 'm', by(FOOT), 'foot|feet'],
    ['thou', '[mil_i]', 'inch', 'mm', by(INCH, '0.001'), 'mil|mils'],
    ['yd', '[yd_i]', 'inch', 'm', by(FOOT, '3'), 'yard|yards'],
    ['mi', '[mi_i]', 'inch', 'km', by(FOOT, '5280'), 'mile|miles'],
  ],
  mass: [
    ['kg', 'kg', 'metric', 'lb', one, 'kgs|kilogram|kilograms|kilogramme|kilogrammes'],
    ['g', 'g', 'metric', 'oz av', by('0.001'), 'gram|grams|gramme|grammes'],
    ['mg', 'mg', 'metric', 'gr', by('0.000001'), 'milligram|milligrams'],
    ['t', 't', 'metric', 'lb', by('1000'), 'tonne|tonnes|metric ton|metric tons'],
    ['lb', '[lb_av]', 'inch', 'kg', by(POUND), 'lbs|lbm|pound|pounds'],
    ['oz av', '[oz_av]', 'inch', 'g', per(by(POUND), by('16')), 'oz avdp|oz wt|oz mass'],
    ['gr', '[gr]', 'inch', 'mg', per(by(POUND), by('7000')), 'grain|grains'],
    ['short ton', '[ston_av]', 'inch', 't', by(POUND, '2000'), 'short tons|US ton|US tons|ton US|ton (US)'],
    ['long ton', '[lton_av]', 'inch', 't', by(POUND, '2240'), 'long tons|imp ton|imp tons|UK ton|UK tons|ton UK'],
  ],
  force: [
    ['N', 'N', 'metric', 'lbf', one, 'newton|newtons'],
    ['kN', 'kN', 'metric', 'lbf', by('1000'), 'kilonewton|kilonewtons'],
    ['MN', 'MN', 'metric', 'lbf', by('1000000'), 'meganewton|meganewtons'],
    ['kgf', 'kgf', 'metric', 'lbf', by(GRAVITY), 'kp|kilogram-force|kilopond'],
    ['lbf', '[lbf_av]', 'inch', 'N', POUND_FORCE, 'lb-f|pound-force|pounds-force'],
    ['kip', '', 'inch', 'kN', by(POUND, GRAVITY, '1000'), 'kips'],
  ],
  torque: [
    ['N·m', 'N.m', 'metric', 'lbf·ft', one, 'Nm|newton metre|newton metres|newton meter|newton meters'],
    ['N·cm', 'N.cm', 'metric', 'lbf·in', by('0.01'), 'Ncm'],
    ['mN·m', 'mN.m', 'metric', 'lbf·in', by('0.001'), 'mNm'],
    ['kN·m', 'kN.m', 'metric', 'lbf·ft', by('1000'), 'kNm'],
    ['kgf·m', 'kgf.m', 'metric', 'lbf·ft', by(GRAVITY), 'kgfm|kg m|kgm|m kg|m kgf|mkg|kp m|kpm'],
    ['kgf·cm', 'kgf.cm', 'metric', 'lbf·in', by(GRAVITY, '0.01'), 'kgfcm|kg cm|kgcm|cm kg|cm kgf|cmkg|kp cm'],
    [
      'lbf·ft',
      '[lbf_av].[ft_i]',
      'inch',
      'N·m',
      by(POUND, GRAVITY, FOOT),
      'ft lbf|lb ft|ft lb|lbs ft|ft lbs|lbft|ftlb|ftlbs|lbfft|ftlbf|lbf ft|foot pounds|foot pound|pound feet|pound foot',
    ],
    [
      'lbf·in',
      '[lbf_av].[in_i]',
      'inch',
      'N·m',
      by(POUND, GRAVITY, INCH),
      'in lbf|lb in|in lb|lbs in|in lbs|lbin|inlb|inlbs|lbfin|inlbf|inch pounds|inch pound|pound inches|pound inch',
    ],
    ['ozf·in', '', 'inch', 'mN·m', per(by(POUND, GRAVITY, INCH), by('16')), 'in ozf|oz in|in oz|ozin|inoz'],
  ],
  pressure: [
    ['Pa', 'Pa', 'metric', 'psi', one, 'pascal|pascals'],
    ['hPa', 'hPa', 'metric', 'inHg', by('100'), ''],
    ['kPa', 'kPa', 'metric', 'psi', by('1000'), 'kilopascal|kilopascals'],
    ['MPa', 'MPa', 'metric', 'psi', by('1000000'), 'megapascal|megapascals'],
    ['GPa', 'GPa', 'metric', 'psi', by('1000000000'), 'gigapascal|gigapascals'],
    ['N/mm²', 'N/mm2', 'metric', 'psi', by('1000000'), ''],
    ['bar', 'bar', 'metric', 'psi', by('100000'), 'bars|barg|bar(g)'],
    ['mbar', 'mbar', 'metric', 'inHg', by('100'), 'millibar|millibars'],
    ['kgf/cm²', 'kgf/cm2', 'metric', 'psi', by(GRAVITY, '10000'), 'kg/cm2|kp/cm2'],
    ['mmHg', 'mm[Hg]', 'metric', 'inHg', by('13595.1', GRAVITY, '0.001'), 'mm Hg|torr'],
    ['mmH₂O', 'mm[H2O]', 'metric', 'inH₂O', by(GRAVITY), 'mm H2O|mm WC|mmWC'],
    ['psi', '[psi]', 'inch', 'kPa', per(POUND_FORCE, by(INCH, INCH)), 'psig|lbf/in2|lb/in2|lbs/in2'],
    ['ksi', '', 'inch', 'MPa', per(by(POUND, GRAVITY, '1000'), by(INCH, INCH)), ''],
    ['inHg', "[in_i'Hg]", 'inch', 'kPa', by('13595.1', GRAVITY, INCH), 'in Hg|"Hg|inches of mercury'],
    ['inH₂O', "[in_i'H2O]", 'inch', 'kPa', by('1000', GRAVITY, INCH), 'in H2O|"H2O|in WC|inWC|in WG|inches of water'],
    ['atm', 'atm', 'metric', 'psi', by('101325'), 'atmosphere|atmospheres'],
  ],
  temperature: [
    ['°C', 'Cel', 'metric', '°F', one, 'C|degC|deg C|degrees C|celsius|degrees celsius', by('273.15')],
    ['°F', '[degF]', 'inch', '°C', per('5', '9'), 'F|degF|deg F|degrees F|fahrenheit', per('2298.35', '9')],
    ['K', 'K', 'metric', '°F', one, 'kelvin|kelvins'],
  ],
  'temperature-difference': [
    ['Δ°C', 'K', 'metric', 'Δ°F', one, 'ΔC|ΔdegC|delta °C|delta C|C°|°C difference|°C|C|degC|deg C'],
    ['Δ°F', '[degR]', 'inch', 'Δ°C', per('5', '9'), 'ΔF|ΔdegF|delta °F|delta F|F°|°F difference|°F|F|degF|deg F'],
    ['ΔK', 'K', 'metric', 'Δ°F', one, 'delta K|K difference|K|kelvin|kelvins'],
  ],
  volume: [
    ['L', 'L', 'metric', 'US gal', by('0.001'), 'l|litre|litres|liter|liters|dm3'],
    ['mL', 'mL', 'metric', 'US fl oz', by('0.000001'), 'ml|millilitre|millilitres|milliliter|milliliters'],
    ['cm³', 'cm3', 'metric', 'in³', by('0.000001'), 'cc|ccm|cu cm|cubic centimetre|cubic centimetres'],
    ['mm³', 'mm3', 'metric', 'in³', by('0.000000001'), 'cu mm'],
    ['m³', 'm3', 'metric', 'ft³', one, 'cu m|cubic metre|cubic metres|cubic meter|cubic meters'],
    ['US gal', '[gal_us]', 'inch', 'L', by(US_GALLON), 'gal US|gal (US)|US gals|US gallon|US gallons|U.S. gal'],
    ['US qt', '[qt_us]', 'inch', 'L', by(US_GALLON, '0.25'), 'qt US|qt (US)|US quart|US quarts|U.S. qt'],
    ['US pt', '[pt_us]', 'inch', 'L', by(US_GALLON, '0.125'), 'pt US|pt (US)|US pint|US pints'],
    [
      'US fl oz',
      '[foz_us]',
      'inch',
      'mL',
      per(by(US_GALLON), by('128')),
      'fl oz US|fl oz (US)|US fluid ounces|US floz',
    ],
    ['imp gal', '[gal_br]', 'inch', 'L', by(IMPERIAL_GALLON), 'gal imp|gal UK|UK gal|imp gals|imp gallon|imp gallons'],
    ['imp qt', '[qt_br]', 'inch', 'L', by(IMPERIAL_GALLON, '0.25'), 'qt imp|UK qt|imp quart|imp quarts'],
    ['imp pt', '[pt_br]', 'inch', 'L', by(IMPERIAL_GALLON, '0.125'), 'pt imp|UK pt|imp pint|imp pints'],
    ['imp fl oz', '[foz_br]', 'inch', 'mL', per(by(IMPERIAL_GALLON), by('160')), 'fl oz imp|UK fl oz'],
    ['in³', '[cin_i]', 'inch', 'cm³', by(INCH, INCH, INCH), 'cu in|cubic inch|cubic inches|cuin'],
    ['ft³', '[cft_i]', 'inch', 'm³', by(FOOT, FOOT, FOOT), 'cu ft|cubic foot|cubic feet|cuft'],
    ['yd³', '[cyd_i]', 'inch', 'm³', by(FOOT, FOOT, FOOT, '27'), 'cu yd|cubic yard|cubic yards'],
  ],
  area: [
    ['mm²', 'mm2', 'metric', 'in²', by('0.000001'), 'sq mm|square millimetres'],
    ['cm²', 'cm2', 'metric', 'in²', by('0.0001'), 'sq cm|square centimetres'],
    ['m²', 'm2', 'metric', 'ft²', one, 'sq m|square metre|square metres|square meters'],
    ['in²', '[sin_i]', 'inch', 'cm²', by(INCH, INCH), 'sq in|square inch|square inches'],
    ['ft²', '[sft_i]', 'inch', 'm²', by(FOOT, FOOT), 'sq ft|square foot|square feet'],
  ],
  time: [
    ['ms', 'ms', 'both', '', by('0.001'), 'millisecond|milliseconds'],
    ['s', 's', 'both', '', one, 'sec|secs|second|seconds'],
    ['min', 'min', 'both', '', by('60'), 'mins|minute|minutes'],
    ['h', 'h', 'both', '', by('3600'), 'hr|hrs|hour|hours'],
    ['d', 'd', 'both', '', by('86400'), 'day|days'],
    ['week', 'wk', 'both', '', by('604800'), 'weeks|wk'],
  ],
  speed: [
    ['m/s', 'm/s', 'metric', 'ft/s', one, 'metres per second'],
    ['m/min', 'm/min', 'metric', 'ft/min', per('1', '60'), 'metres per minute'],
    ['mm/s', 'mm/s', 'metric', 'in/s', by('0.001'), ''],
    ['mm/min', 'mm/min', 'metric', 'in/min', per('0.001', '60'), ''],
    ['km/h', 'km/h', 'metric', 'mph', per('1000', '3600'), 'kph|kmh'],
    ['ft/s', '[ft_i]/s', 'inch', 'm/s', by(FOOT), 'fps'],
    ['ft/min', '[ft_i]/min', 'inch', 'm/min', per(FOOT, '60'), 'fpm|sfm'],
    ['in/s', '[in_i]/s', 'inch', 'mm/s', by(INCH), 'ips'],
    ['in/min', '[in_i]/min', 'inch', 'mm/min', per(INCH, '60'), 'ipm'],
    ['mph', '[mi_i]/h', 'inch', 'km/h', per(by(FOOT, '5280'), by('3600')), 'mi/h'],
  ],
  acceleration: [
    ['m/s²', 'm/s2', 'metric', 'ft/s²', one, ''],
    ['ft/s²', '[ft_i]/s2', 'inch', 'm/s²', by(FOOT), ''],
  ],
  'rotational-speed': [
    ['r/min', '{rev}/min', 'both', '', per('1', '60'), 'rpm|rev/min|revolutions per minute'],
    ['r/s', '{rev}/s', 'both', '', one, 'rev/s|rps'],
  ],
  angle: [
    ['°', 'deg', 'both', '', per('1', '360'), 'deg|degs|degree|degrees'],
    ['′', "'", 'both', '', per('1', '21600'), 'arcmin|minutes of arc'],
    ['arcsec', "''", 'both', '', per('1', '1296000'), 'seconds of arc'],
    ['rad', 'rad', 'both', '', per(one, multiply(by('2'), PI)), 'radian|radians'],
    ['mrad', 'mrad', 'both', '', per(by('0.001'), multiply(by('2'), PI)), 'milliradian|milliradians'],
    ['turn', 'circ', 'both', '', one, 'turns|rev|revs|revolution|revolutions'],
  ],
  slope: [
    ['mm/m', 'mm/m', 'metric', 'in/ft', by('0.001'), ''],
    ['in/ft', '[in_i]/[ft_i]', 'inch', 'mm/m', per('1', '12'), ''],
  ],
  ratio: [
    ['%', '%', 'both', '', by('0.01'), 'percent|per cent|pct'],
    ['‰', '[ppth]', 'both', '', by('0.001'), 'per mille'],
    ['ppm', '[ppm]', 'both', '', by('0.000001'), 'µm/m|um/m|microstrain'],
  ],
  frequency: [
    ['Hz', 'Hz', 'both', '', one, 'hertz'],
    ['kHz', 'kHz', 'both', '', by('1000'), 'kilohertz'],
    ['1/min', '/min', 'both', '', per('1', '60'), 'per minute|strokes/min|cycles/min'],
  ],
  voltage: [
    ['V', 'V', 'both', '', one, 'volt|volts|Vac|Vdc|V AC|V DC'],
    ['mV', 'mV', 'both', '', by('0.001'), 'millivolt|millivolts'],
    ['kV', 'kV', 'both', '', by('1000'), 'kilovolt|kilovolts'],
  ],
  current: [
    ['A', 'A', 'both', '', one, 'amp|amps|ampere|amperes'],
    ['mA', 'mA', 'both', '', by('0.001'), 'milliamp|milliamps'],
    ['µA', 'uA', 'both', '', by('0.000001'), 'uA|microamp|microamps'],
  ],
  resistance: [
    ['Ω', 'Ohm', 'both', '', one, 'ohm|ohms'],
    ['µΩ', 'uOhm', 'both', '', by('0.000001'), 'uΩ|microhm|microhms|microohm'],
    ['mΩ', 'mOhm', 'both', '', by('0.001'), 'milliohm|milliohms'],
    ['kΩ', 'kOhm', 'both', '', by('1000'), 'kohm|kilohm|kilohms|kiloohm'],
    ['MΩ', 'MOhm', 'both', '', by('1000000'), 'Mohm|megohm|megohms|megaohm'],
    ['GΩ', 'GOhm', 'both', '', by('1000000000'), 'Gohm|gigohm|gigohms|gigaohm'],
  ],
  power: [
    ['W', 'W', 'metric', 'hp', one, 'watt|watts'],
    ['kW', 'kW', 'metric', 'hp', by('1000'), 'kilowatt|kilowatts'],
    ['MW', 'MW', 'metric', 'hp', by('1000000'), 'megawatt|megawatts'],
    ['hp', '[HP]', 'inch', 'kW', by(POUND, GRAVITY, FOOT, '550'), 'HP|horsepower|bhp'],
  ],
  energy: [
    ['J', 'J', 'metric', 'ft·lbf', one, 'joule|joules'],
    ['kJ', 'kJ', 'metric', 'ft·lbf', by('1000'), 'kilojoule|kilojoules'],
    ['MJ', 'MJ', 'metric', 'Btu', by('1000000'), 'megajoule|megajoules'],
    ['kWh', 'kW.h', 'both', '', by('3600000'), 'kilowatt hour|kilowatt hours'],
    ['ft·lbf', '[ft_i].[lbf_av]', 'inch', 'J', by(POUND, GRAVITY, FOOT), 'ft lb|ft lbs|foot pounds|foot pound'],
    ['Btu', '[Btu_IT]', 'inch', 'kJ', per(by('4.1868', '2267.96185'), by('9')), 'BTU'],
    ['cal', 'cal_th', 'metric', 'Btu', by('4.184'), 'calorie|calories'],
  ],
  flow: [
    ['L/min', 'L/min', 'metric', 'US gal/min', per('0.001', '60'), 'l/min|lpm|litres per minute'],
    ['L/s', 'L/s', 'metric', 'US gal/min', by('0.001'), 'l/s'],
    ['L/h', 'L/h', 'metric', 'US gal/h', per('0.001', '3600'), 'l/h'],
    ['mL/min', 'mL/min', 'metric', 'in³/min', per('0.000001', '60'), 'ml/min|cc/min|cm3/min'],
    ['m³/h', 'm3/h', 'metric', 'ft³/min', per('1', '3600'), ''],
    ['m³/min', 'm3/min', 'metric', 'ft³/min', per('1', '60'), ''],
    ['US gal/min', '[gal_us]/min', 'inch', 'L/min', per(US_GALLON, '60'), 'gal US/min|US gpm'],
    ['US gal/h', '[gal_us]/h', 'inch', 'L/h', per(US_GALLON, '3600'), 'US gph'],
    ['imp gal/min', '[gal_br]/min', 'inch', 'L/min', per(IMPERIAL_GALLON, '60'), 'imp gpm'],
    ['ft³/min', '[cft_i]/min', 'inch', 'm³/min', per(by(FOOT, FOOT, FOOT), by('60')), 'cfm|CFM|cu ft/min'],
    ['in³/min', '[cin_i]/min', 'inch', 'mL/min', per(by(INCH, INCH, INCH), by('60')), 'cu in/min'],
  ],
  stiffness: [
    ['N/mm', 'N/mm', 'metric', 'lbf/in', by('1000'), ''],
    ['kN/m', 'kN/m', 'metric', 'lbf/in', by('1000'), ''],
    ['N/m', 'N/m', 'metric', 'lbf/in', one, ''],
    ['lbf/in', '[lbf_av]/[in_i]', 'inch', 'N/mm', per(POUND_FORCE, by(INCH)), 'lb/in|lbs/in'],
  ],
  'kinematic-viscosity': [
    ['mm²/s', 'mm2/s', 'both', '', by('0.000001'), ''],
    ['cSt', 'cSt', 'both', '', by('0.000001'), 'centistokes|centistoke'],
  ],
  'dynamic-viscosity': [
    ['Pa·s', 'Pa.s', 'both', '', one, 'Pas'],
    ['mPa·s', 'mPa.s', 'both', '', by('0.001'), 'mPas'],
    ['cP', 'cP', 'both', '', by('0.001'), 'centipoise'],
  ],
  'sound-level': [['dB(A)', '', 'both', '', one, 'dBA|dB A|decibels A']],
  'level-ratio': [['dB', 'dB', 'both', '', one, 'decibel|decibels']],
  charge: [
    ['A·h', 'A.h', 'both', '', by('3600'), 'Ah|amp hour|amp hours'],
    ['mA·h', 'mA.h', 'both', '', by('3.6'), 'mAh'],
  ],
}

const plurals: Readonly<Record<string, string>> = {
  turn: 'turns',
  week: 'weeks',
  'short ton': 'short tons',
  'long ton': 'long tons',
}

/** Every unit. A spelling that several kinds share (`ft lb`, `K`, `°C`) means the earlier one unless the kind is asked for. */
export const units: readonly Unit[] = Object.entries(rowsByKind).flatMap(([kind, rows]) =>
  rows.map(([symbol, ucum, system, counterpart, factor, spellings, offset = zero]) => ({
    symbol,
    spellings: [symbol, ...spellings.split('|').filter((spelling) => spelling !== '')],
    ucum,
    kind,
    system,
    factor,
    offset,
    ...(counterpart ? { counterpart } : {}),
    ...(plurals[symbol] ? { plural: plurals[symbol] } : {}),
  })),
)

/** The product of decimals. */
function by(...factors: readonly string[]): Rational {
  return factors.reduce((product, text) => multiply(product, fromDecimalText(text) ?? zero), one)
}

function per(above: Rational | string, below: Rational | string): Rational {
  return divide(typeof above === 'string' ? by(above) : above, typeof below === 'string' ? by(below) : below)
}
