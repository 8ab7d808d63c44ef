import type { QuantityKind, Rational, UnitSystem } from './quantity-types.ts'
import { divide, fromDecimalText, multiply, one, zero } from './rational.ts'

/** One unit. A value in the kind's base unit is `value × factor + offset`. */
export interface Unit {
  /** As printed. */
  readonly symbol: string
  /** As people type it, the symbol first; long words without their plural `s`, metre and litre in one of two spellings (`units.ts`). */
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

/*
 * Named numbers of the table. NIST Special Publication 811 (2008), appendix B, exact values, the same as in Unicode CLDR:
 * pound in kg, standard gravity in m/s², inch and foot in m, US gallon (231 in³) and imperial gallon in m³.
 * π is cut after 40 decimals: only angles in radians carry an error, one part in 10^40.
 */
const named: Readonly<Record<string, string>> = {
  lb: '0.45359237',
  g: '9.80665',
  in: '0.0254',
  ft: '0.3048',
  usgal: '0.003785411784',
  impgal: '0.00454609',
  pi: '3.1415926535897932384626433832795028841971',
}

/*
 * A line a unit, below its kind and system:
 *
 *     symbol;UCUM;counterpart;factor to the kind's base unit;spellings (`|` between them);offset
 *
 * Factors are products of decimals and named numbers, those behind the `/` divide.
 * A spelling that several kinds share (`ft lb`, `K`, `°C`) means the earlier one unless the kind is asked for.
 */
const table = `
number, both:
;1;;1
length, metric:
mm;mm;in;0.001;millimetre
cm;cm;in;0.01;centimetre
m;m;ft;1;metre
km;km;mi;1000;kilometre
µm;um;in;0.000001;um|micron|micrometre
length, inch:
in;[in_i];mm;in;inch|inches|"|”
ft;[ft_i];m;ft;foot|feet
thou;[mil_i];mm;in 0.001;mil|mils
yd;[yd_i];m;ft 3;yard
mi;[mi_i];km;ft 5280;mile
mass, metric:
kg;kg;lb;1;kgs|kilogram|kilogramme
g;g;oz av;0.001;gram|gramme
mg;mg;gr;0.000001;milligram
t;t;lb;1000;tonne|metric ton
mass, inch:
lb;[lb_av];kg;lb;lbs|lbm|pound
oz av;[oz_av];g;lb / 16;oz avdp|oz wt|oz mass
gr;[gr];mg;lb / 7000;grain
short ton;[ston_av];t;lb 2000;US ton|ton US|ton (US)
long ton;[lton_av];t;lb 2240;imp ton|UK ton|ton UK
force, metric:
N;N;lbf;1;newton
kN;kN;lbf;1000;kilonewton
kgf;kgf;lbf;g;kp|kilogram-force|kilopond
force, inch:
lbf;[lbf_av];N;lb g;lb-f|pound-force|pounds-force
kip;;kN;lb g 1000;kips
torque, metric:
N·m;N.m;lbf·ft;1;newton metre
N·cm;N.cm;lbf·in;0.01
mN·m;mN.m;lbf·in;0.001
kN·m;kN.m;lbf·ft;1000
kgf·m;kgf.m;lbf·ft;g;kg m|m kg|m kgf|kp m
kgf·cm;kgf.cm;lbf·in;g 0.01;kg cm|cm kg|cm kgf|kp cm
torque, inch:
lbf·ft;[lbf_av].[ft_i];N·m;lb g ft;ft lbf|lb ft|ft lb|lbs ft|foot pound|pound feet|pound foot
lbf·in;[lbf_av].[in_i];N·m;lb g in;in lbf|lb in|in lb|lbs in|inch pound|pound inches|pound inch
ozf·in;;mN·m;lb g in / 16;in ozf|oz in|in oz
pressure, metric:
kPa;kPa;psi;1000;kilopascal
MPa;MPa;psi;1000000;megapascal
GPa;GPa;ksi;1000000000;gigapascal
bar;bar;psi;100000;bars|barg|bar(g)
Pa;Pa;psi;1;pascal
hPa;hPa;inHg;100
N/mm²;N/mm2;psi;1000000
N/cm²;N/cm2;psi;10000
mbar;mbar;inHg;100;millibar
kgf/cm²;kgf/cm2;psi;g 10000;kg/cm2|kp/cm2
mmHg;mm[Hg];inHg;13595.1 g 0.001;mm Hg|torr
mmH₂O;mm[H2O];inH₂O;g;mm H2O|mm WC
atm;atm;psi;101325;atmosphere
pressure, inch:
psi;[psi];kPa;lb g / in in;psig|lbf/in2|lb/in2|lbs/in2
inHg;[in_i'Hg];kPa;13595.1 g in;in Hg|"Hg|inches of mercury
ksi;;MPa;lb g 1000 / in in
inH₂O;[in_i'H2O];kPa;1000 g in;in H2O|"H2O|in WC|in WG|inches of water
temperature, metric:
°C;Cel;°F;1;C|deg C|degrees C|celsius|degrees celsius;273.15
K;K;°F;1;kelvin
temperature, inch:
°F;[degF];°C;5 / 9;F|deg F|degrees F|fahrenheit;2298.35 / 9
temperature-difference, metric:
Δ°C;K;Δ°F;1;ΔC|ΔdegC|delta °C|delta C|C°|°C difference|°C|C|deg C
ΔK;K;Δ°F;1;delta K|K difference|K|kelvin
temperature-difference, inch:
Δ°F;[degR];Δ°C;5 / 9;ΔF|ΔdegF|delta °F|delta F|F°|°F difference|°F|F|deg F
thermal-expansion, both:
1/K;K-1;;1;1/°C|per K|per °C
1/°F;[degR]-1;;9 / 5;per °F
volume, metric:
L;L;US gal;0.001;l|litre|dm3
mL;mL;US fl oz;0.000001;ml|millilitre
cm³;cm3;in³;0.000001;cc|ccm|cu cm|cubic centimetre
mm³;mm3;in³;0.000000001;cu mm
m³;m3;ft³;1;cu m|cubic metre
volume, inch:
US gal;[gal_us];L;usgal;gal US|gal (US)|US gallon|U.S. gal
US qt;[qt_us];L;usgal 0.25;qt US|qt (US)|US quart|U.S. qt
US pt;[pt_us];L;usgal 0.125;pt US|pt (US)|US pint
US fl oz;[foz_us];mL;usgal / 128;fl oz US|fl oz (US)|US fluid ounces
imp gal;[gal_br];L;impgal;gal imp|gal UK|UK gal|imp gallon
imp qt;[qt_br];L;impgal 0.25;qt imp|UK qt|imp quart
imp pt;[pt_br];L;impgal 0.125;pt imp|UK pt|imp pint
imp fl oz;[foz_br];mL;impgal / 160;fl oz imp|UK fl oz
in³;[cin_i];cm³;in in in;cu in|cubic inch|cubic inches
ft³;[cft_i];m³;ft ft ft;cu ft|cubic foot|cubic feet
yd³;[cyd_i];m³;ft ft ft 27;cu yd|cubic yard
area, metric:
mm²;mm2;in²;0.000001;sq mm|square millimetres
cm²;cm2;in²;0.0001;sq cm|square centimetres
m²;m2;ft²;1;sq m|square metre
area, inch:
in²;[sin_i];cm²;in in;sq in|square inch|square inches
ft²;[sft_i];m²;ft ft;sq ft|square foot|square feet
time, both:
ms;ms;;0.001;millisecond
s;s;;1;sec|secs|second
min;min;;60;mins|minute
h;h;;3600;hr|hrs|hour
d;d;;86400;day|days
week;wk;;604800;weeks|wk
speed, metric:
m/s;m/s;ft/s;1;metres per second
m/min;m/min;ft/min;1 / 60;metres per minute
mm/s;mm/s;in/s;0.001
mm/min;mm/min;in/min;0.001 / 60
km/h;km/h;mph;1000 / 3600;kph|kmh
speed, inch:
ft/s;[ft_i]/s;m/s;ft;fps
ft/min;[ft_i]/min;m/min;ft / 60;fpm|sfm
in/s;[in_i]/s;mm/s;in;ips
in/min;[in_i]/min;mm/min;in / 60;ipm
mph;[mi_i]/h;km/h;ft 5280 / 3600;mi/h
acceleration, metric:
m/s²;m/s2;ft/s²;1
acceleration, inch:
ft/s²;[ft_i]/s2;m/s²;ft
rotational-speed, both:
r/min;{rev}/min;;1 / 60;rpm|rev/min|revolutions per minute
r/s;{rev}/s;;1;rev/s|rps
angle, both:
°;deg;;1 / 360;deg|degs|degree
′;';;1 / 21600;arcmin|minutes of arc
arcsec;'';;1 / 1296000;seconds of arc
rad;rad;;1 / 2 pi;radian
mrad;mrad;;0.001 / 2 pi;milliradian
turn;circ;;1;turns|rev|revs|revolution
slope, metric:
mm/m;mm/m;in/ft;0.001
slope, inch:
in/ft;[in_i]/[ft_i];mm/m;1 / 12
ratio, both:
%;%;;0.01;per cent|pct
‰;[ppth];;0.001;per mille
ppm;[ppm];;0.000001;µm/m|um/m|microstrain
frequency, both:
Hz;Hz;;1;hertz
kHz;kHz;;1000;kilohertz
1/min;/min;;1 / 60;per minute
voltage, both:
V;V;;1;volt|Vac|Vdc|V AC|V DC
mV;mV;;0.001;millivolt
kV;kV;;1000;kilovolt
current, both:
A;A;;1;amp|amps|ampere
mA;mA;;0.001;milliamp
µA;uA;;0.000001;uA|microamp
resistance, both:
Ω;Ohm;;1;ohm|ohms
µΩ;uOhm;;0.000001;uΩ|microhm|microohm
mΩ;mOhm;;0.001;milliohm
kΩ;kOhm;;1000;kohm|kilohm|kiloohm
MΩ;MOhm;;1000000;Mohm|megohm|megaohm
GΩ;GOhm;;1000000000;Gohm|gigohm|gigaohm
power, metric:
W;W;hp;1;watt
kW;kW;hp;1000;kilowatt
MW;MW;hp;1000000;megawatt
power, inch:
hp;[HP];kW;lb g ft 550;HP|horsepower|bhp
energy, metric:
J;J;ft·lbf;1;joule
kJ;kJ;ft·lbf;1000;kilojoule
MJ;MJ;Btu;1000000;megajoule
cal;cal_th;Btu;4.184;calorie
energy, both:
kWh;kW.h;;3600000;kilowatt hour
energy, inch:
ft·lbf;[ft_i].[lbf_av];J;lb g ft;ft lb|foot pound
Btu;[Btu_IT];kJ;4.1868 2267.96185 / 9;BTU
flow, metric:
L/min;L/min;US gal/min;0.001 / 60;l/min|lpm|litres per minute
L/s;L/s;US gal/min;0.001;l/s
L/h;L/h;US gal/h;0.001 / 3600;l/h
mL/min;mL/min;in³/min;0.000001 / 60;ml/min|cc/min|cm3/min
m³/h;m3/h;ft³/min;1 / 3600
m³/min;m3/min;ft³/min;1 / 60
flow, inch:
US gal/min;[gal_us]/min;L/min;usgal / 60;US gpm
US gal/h;[gal_us]/h;L/h;usgal / 3600;US gph
imp gal/h;[gal_br]/h;L/h;impgal / 3600
imp gal/min;[gal_br]/min;L/min;impgal / 60;imp gpm
ft³/min;[cft_i]/min;m³/min;ft ft ft / 60;cfm|CFM|cu ft/min
in³/min;[cin_i]/min;mL/min;in in in / 60;cu in/min
stiffness, metric:
N/mm;N/mm;lbf/in;1000
kN/m;kN/m;lbf/in;1000
N/m;N/m;lbf/in;1
stiffness, inch:
lbf/in;[lbf_av]/[in_i];N/mm;lb g / in;lb/in|lbs/in
kinematic-viscosity, both:
mm²/s;mm2/s;;0.000001
cSt;cSt;;0.000001;centistoke
dynamic-viscosity, both:
Pa·s;Pa.s;;1
mPa·s;mPa.s;;0.001
cP;cP;;0.001;centipoise
sound-level, both:
dB(A);;;1;dB A|decibels A
level-ratio, both:
dB;dB;;1;decibel
charge, both:
A·h;A.h;;3600;amp hour
mA·h;mA.h;;3.6`

const plurals: Readonly<Record<string, string>> = {
  turn: 'turns',
  week: 'weeks',
  'short ton': 'short tons',
  'long ton': 'long tons',
}

/** Every unit, the common ones of each kind first. */
export const units: readonly Unit[] = readTable()

function readTable(): readonly Unit[] {
  let kind = ''
  let system: UnitSystem = 'both'
  const read: Unit[] = []
  for (const line of table.trim().split('\n')) {
    const heading = /^(.+), (metric|inch|both):$/.exec(line)
    if (heading) {
      kind = heading[1] ?? ''
      system = (heading[2] ?? 'both') as UnitSystem
    } else read.push(unitOf(kind, system, line))
  }
  return read
}

function unitOf(kind: QuantityKind, system: UnitSystem, line: string): Unit {
  const [symbol = '', ucum = '', counterpart, factor = '', spellings, offset] = line
    .split(';')
    .map((cell) => cell.trim())
  const plural = plurals[symbol]
  return {
    symbol,
    spellings: spellings ? [symbol, ...spellings.split('|')] : [symbol],
    ucum,
    kind,
    system,
    factor: product(factor),
    offset: offset ? product(offset) : zero,
    ...(counterpart ? { counterpart } : {}),
    ...(plural ? { plural } : {}),
  }
}

function product(text: string): Rational {
  const [above = '', below = ''] = text.split(' / ')
  return divide(multiplied(above), multiplied(below))
}

function multiplied(text: string): Rational {
  return text.split(' ').reduce((so, word) => multiply(so, fromDecimalText(named[word] ?? word) ?? one), one)
}
