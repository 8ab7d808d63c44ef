/** What a job must give: a number with its unit, good to the last digit written; or a word. */
type Wanted = readonly [value: string, unit: string] | string

export interface JudgedExample {
  readonly given: Readonly<Record<string, string>>
  readonly gives: Readonly<Record<string, Wanted>>
  /** Who says so: a published worked example or table; else a hand calculation, said to be one. */
  readonly source: string
}

const byHand = (how: string): string => `Hand calculation, independent of the program: ${how}`

/** A job with a known answer for each calculator of loads, hand lifts, schedules and thresholds. */
export const judgedExamples: Readonly<Record<string, JudgedExample>> = {
  'load-weight': {
    given: { material: 'steel', shape: 'block', length: '2 ft', width: '3 ft', height: '1 ft' },
    gives: { weight: ['2940', 'lb'] },
    source: 'Weight estimation page of a sling maker: steel 490 lb/ft³; 6 ft³',
  },
  'lift-design-load': {
    given: { weight: '1000 kg', uncertainty: '10 %', 'dynamic-factor': '1.1', gear: '40 kg' },
    gives: { 'design-load': ['1250', 'kg'] },
    source: byHand('1000 × 1.1 × 1.1 + 40'),
  },
  'proof-load': {
    given: { rated: '4000 lb' },
    gives: { test: ['5000', 'lb'] },
    source: '29 CFR 1926.251(a)(4): 125 % of the rated load',
  },
  'sling-leg-tension': {
    given: { load: '15000 lb', legs: '2', length: '16 ft', height: '12 ft' },
    gives: { tension: ['10000', 'lb'], 'leg-angle-verdict': 'allowed' },
    source: 'Provincial crane-safety study quiz with answers, load calculation questions',
  },
  'sling-capacity': {
    given: { rating: '5000 lb', legs: '2', length: '8 ft', height: '6 ft' },
    gives: { capacity: ['7500', 'lb'] },
    source: byHand('2 × 5000 × 6/8, by the formula of rigging tutorials'),
  },
  'sling-at-other-angle': {
    given: {
      tagged: '20800 lb',
      'tag-angle': '60°',
      'tag-angle-is': 'from-horizontal',
      angle: '40°',
      'angle-is': 'from-vertical',
    },
    gives: { capacity: ['18399', 'lb'], 'leg-angle-verdict': 'allowed' },
    source: byHand('20 800 × sin 50°/sin 60°; a chain maker’s table has 20 800 lb at 60° and 17 000 lb at 45°'),
  },
  'off-centre-lift': {
    given: { load: '10000 lb', 'first-distance': '2 ft', 'second-distance': '8 ft', height: '6 ft' },
    gives: {
      'first-tension': ['8433', 'lb'],
      'second-tension': ['3333', 'lb'],
      'first-angle': ['71.57', '°'],
      'second-angle': ['36.87', '°'],
    },
    source: byHand('S = √(D² + 6²); T1 = 10000 × 8 × 6.3246/(6 × 10); T2 = 10000 × 2 × 10/(6 × 10)'),
  },
  'tilted-lift': {
    given: {
      load: '1000 kg',
      'first-length': '2 m',
      'second-length': '2 m',
      span: '2 m',
      centre: '1 m',
      depth: '0.5 m',
    },
    gives: { tilt: ['0', '°'], 'first-tension': ['577.4', 'kg'], 'second-tension': ['577.4', 'kg'] },
    source: byHand('equal legs over the middle hang level at 60°: 500/sin 60°'),
  },
  'hitch-rating': {
    given: { rating: '9900 lb', hitch: 'choker' },
    gives: { 'hitch-rating': ['7425', 'lb'] },
    source: 'Provincial crane-safety study quiz with answers: a choker holds 75 %',
  },
  'chain-sling': {
    given: { grade: '80', size: '3/8', values: 'printed' },
    gives: { single: ['7100', 'lb'], 'double-60': ['12300', 'lb'], 'triple-or-quad-45': ['15100', 'lb'] },
    source: 'Working load limits of grade 80 chain slings, table of a chain maker',
  },
  'wire-rope-sling': {
    given: { size: '3/4', values: 'rule-of-thumb' },
    gives: { rating: ['9000', 'lb'] },
    source: 'Steelworker 2 training course, p. 64: 8 D² short tons',
  },
  'chain-wear': {
    given: { stock: '0.5 in', worn: '0.37 in', rule: 'quarter-of-stock' },
    gives: { wear: ['26', '%'], verdict: 'goes out of use' },
    source: 'NAVEDTRA 14251 (Steelworker): replaced at a quarter of the stock',
  },
  'hoist-chain-wear': {
    given: { nominal: '75 mm' },
    gives: { limit: ['77.3', 'mm'], elongation: ['3.1', '%'] },
    source: 'Lever hoist manual, load chain wear table, 5 links',
  },
  'angled-hardware': {
    given: { part: 'shoulder-eyebolt', rating: '1550 lb', angle: '45°' },
    gives: { 'rating-left': ['465', 'lb'], percent: ['30', '%'] },
    source: 'Eye bolt load table of a supplier, 3/8 in at 45°',
  },
  'lifting-train': {
    given: { names: 'hook; sling; shackle', ratings: '5 t; 2 t; 3 t', pulls: '3 t; 1.9 t; 1.9 t' },
    gives: { weakest: 'sling', used: ['95', '%'], verdict: 'is enough' },
    source: byHand('3/5, 1.9/2 and 1.9/3: the sling has the least in hand'),
  },
  'stand-loads': {
    given: {
      load: '4000 kg',
      names: 'LF; RF; LR; RR',
      x: '0 m; 0 m; 1 m; 1 m',
      y: '0 m; 1 m; 0 m; 1 m',
      ratings: '3 t; 3 t; 3 t; 3 t',
      'centre-x': '0.5 m',
      'centre-y': '0.5 m',
      'centre-height': '1.2 m',
    },
    gives: {
      'load-LF': ['2000', 'kg'],
      'load-RR': ['2000', 'kg'],
      margin: ['0.5', 'm'],
      'tipping-angle': ['22.6', '°'],
      verdict: 'are enough',
    },
    source: byHand('with one stand slack the other diagonal carries all, half each; atan(0.5/1.2)'),
  },
  'crib-load': {
    given: { timber: '3.5 in', timbers: '2', base: '18 in', height: '3 ft', 'bearing-strength': '500 psi' },
    gives: { capacity: ['24500', 'lbf'], verdict: 'is low enough' },
    source:
      'FEMA and US Army Corps of Engineers shoring guide, from memory: about 24 000 lb for two 4×4 a layer; 4 × 3.5² × 500',
  },
  'plank-load': {
    given: {
      load: '1 kN',
      span: '2 m',
      width: '225 mm',
      thickness: '38 mm',
      'bending-strength': '8 MPa',
      stiffness: '8000 MPa',
    },
    gives: { stress: ['9.23', 'MPa'], verdict: 'is not enough' },
    source: byHand('1000 × 2000/4 over 225 × 38²/6 = 9.234 N/mm²'),
  },
  'prop-load': {
    given: {
      outside: '48.3 mm',
      inside: '41.9 mm',
      length: '2.5 m',
      stiffness: '205000 MPa',
      strength: '235 MPa',
      'safety-factor': '3',
    },
    gives: { capacity: ['12.5', 'kN'], fails: 'buckling' },
    source: byHand('I = π/64 (48.3⁴ − 41.9⁴) = 115 856 mm⁴; π² × 205 000 × 115 856/2500²/3 = 12 502 N'),
  },
  'lifting-index': {
    given: {
      load: '20 lb',
      horizontal: '20 in',
      vertical: '44 in',
      travel: '37 in',
      twist: '30°',
      rate: '5 1/min',
      duration: 'short',
      coupling: 'fair',
      form: 'inch',
      multipliers: 'formula',
    },
    gives: { 'recommended-weight': ['14.34', 'lb'], 'lifting-index': ['1.4', ''] },
    source:
      'Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, example 5, origin: index 1.4 (it prints 14.4 lb from multipliers rounded first)',
  },
  'composite-lifting-index': {
    given: {
      names: 'a; b',
      loads: '10 kg; 5 kg',
      limits: '12 kg; 14 kg',
      rates: '1 1/min; 2 1/min',
      heights: '80 cm; 80 cm',
      duration: 'moderate',
    },
    gives: { 'composite-index': ['0.993', ''] },
    source: byHand('table 5, up to 2 h: 10/12/0.88 + 5/14 × (1/0.79 − 1/0.88)'),
  },
  'people-needed': {
    given: { load: '29 kg', limit: '23 kg' },
    gives: { people: ['2', ''], share: ['14.5', 'kg'] },
    source: 'HSE L23, team handling, from memory: two people lift two thirds of the sum of what each may',
  },
  'three-point-estimate': {
    given: { shortest: '5 week', likeliest: '8 week', longest: '17 week' },
    gives: { expected: ['9', 'week'], deviation: ['2', 'week'] },
    source: 'Project management text, PERT chapter, three-point estimates',
  },
  'finish-chance': {
    given: { expected: '24 week', deviation: '2.2360680 week', target: '28 week' },
    gives: { chance: ['96.3', '%'] },
    source: 'Project management text, PERT chapter: variance 5, z 1.79, 0.9633',
  },
  'job-schedule': {
    given: {
      steps: 'A; B; C; D; E; F; G; H; I; J',
      times: '8 h; 4 h; 3 h; 5 h; 1 h; 2 h; 7 h; 6 h; 9 h; 6 h',
      after: '-; -; -; A; A; C; D; C; B + E + F; H',
    },
    gives: { length: ['20', 'h'], critical: 'A, D, G' },
    source: 'Solved exercise with table of earliest and latest times',
  },
  'crew-time': {
    given: { times: '2 h; 1.5 h; 0.5 h', people: '2; 1; 3' },
    gives: { clock: ['4', 'h'], 'person-hours': ['7', 'h'], 'most-people': ['3', ''] },
    source: byHand('2 + 1.5 + 0.5; 4 + 1.5 + 1.5'),
  },
  'fall-protection': {
    given: { height: '6 ft', work: 'construction', 'top-rail': '38.9 in' },
    gives: { protection: 'needed', 'top-rail': 'too low or too high' },
    source: '29 CFR 1926.501(b)(1) and 29 CFR 1910.29(b)(1)',
  },
  'fire-watch': {
    given: { distance: '34 ft', after: '25 min', 'rule-set': 'us-osha-general-industry' },
    gives: { 'fire-watch': 'needed', 'minutes-after': ['30', 'min'], time: 'goes on' },
    source: 'WAC 296-307-49503, the words of 29 CFR 1910.252(a)(2)(iii)',
  },
  'confined-space-air': {
    given: { oxygen: '19.4 %', 'can-enter': 'yes', restricted: 'yes', 'continuous-stay': 'no' },
    gives: { air: 'is hazardous: nobody enters', space: 'is a confined space' },
    source: 'WAC 296-155-20301, values of 29 CFR 1910.146(b)',
  },
  'noise-dose': {
    given: { levels: '92 dB(A)', hours: '8 h', rule: 'osha' },
    gives: { dose: ['132', '%'], 'steady-level': ['92', 'dB(A)'], 'allowed-1': ['6.06', 'h'] },
    source: '29 CFR 1910.95, appendix A',
  },
  'hardware-rating': {
    given: { part: 'shackle', size: '1/2' },
    gives: { rating: ['4409', 'lb'] },
    source: 'Federal specification RR-C-271, from memory: 2 t for a 1/2 in carbon steel shackle',
  },
  'jack-check': {
    given: { rating: '20 t', load: '22 t', marked: 'yes', stop: 'yes', defect: 'no', supports: 'jack', use: 'loaned' },
    gives: { jack: 'may not be used', under: 'not allowed', inspection: 'out and return' },
    source: '29 CFR 1910.244(a)(1) and (a)(2)',
  },
  'hoist-check': {
    given: { 'side-pull': 'yes', authorised: 'no', wraps: '1' },
    gives: { 'side-pull': 'may not be', wraps: 'are too few' },
    source: 'WAC 296-24-23527, the same requirements as 29 CFR 1910.179(n)',
  },
  'lockout-order': {
    given: { steps: 'preparation; shutdown; isolation; device application; verification; stored energy' },
    gives: { verdict: 'is wrong' },
    source: '29 CFR 1910.147(d)(1) to (d)(6): stored energy before verification',
  },
}
