interface RegimeText {
  readonly varieties: string;
  readonly temperature: string;
  /** Absent for cold air. */
  readonly oxygen?: string;
  readonly carbonDioxide?: string;
  readonly humidity: string;
  readonly life: string;
  readonly note?: string;
}

const REGIMES: Readonly<Record<string, RegimeText>> = {
  'elstar-air': { varieties: 'Elstar', temperature: '1.2', humidity: '93', life: '3 months' },
  'elstar-ca': {
    varieties: 'Elstar',
    temperature: '1.2',
    oxygen: '1.5',
    carbonDioxide: '2.0',
    humidity: '94',
    life: '6 months',
  },
  'gala-air': { varieties: 'Gala', temperature: '0.6', humidity: '93', life: '4 months' },
  'gala-ca': {
    varieties: 'Gala',
    temperature: '0.6',
    oxygen: '1.5',
    carbonDioxide: '1.8',
    humidity: '94',
    life: '8 months',
  },
  'gala-long': {
    varieties: 'Gala',
    temperature: '0.8',
    oxygen: '1.2',
    carbonDioxide: '1.8',
    humidity: '94',
    life: '9 months',
    note: 'low oxygen: only for fruit picked firm',
  },
  'jonagold-air': { varieties: 'Jonagold', temperature: '0.8', humidity: '93', life: '3 months' },
  'jonagold-ca': {
    varieties: 'Jonagold',
    temperature: '0.8',
    oxygen: '1.5',
    carbonDioxide: '1.5',
    humidity: '94',
    life: '7 months',
  },
  'golden-ca': {
    varieties: 'Golden Delicious',
    temperature: '0.6',
    oxygen: '1.5',
    carbonDioxide: '2.0',
    humidity: '95',
    life: '9 months',
  },
  'golden-long': {
    varieties: 'Golden Delicious',
    temperature: '0.6',
    oxygen: '1.2',
    carbonDioxide: '2.0',
    humidity: '95',
    life: '10 months',
  },
  'red-ca': {
    varieties: 'Red Delicious',
    temperature: '0.3',
    oxygen: '1.5',
    carbonDioxide: '1.8',
    humidity: '94',
    life: '10 months',
  },
  'golden-and-red': {
    varieties: 'Golden Delicious, Red Delicious',
    temperature: '0.6',
    oxygen: '1.5',
    carbonDioxide: '1.8',
    humidity: '95',
    life: '9 months',
    note: 'for a room that holds both',
  },
  'granny-ca': {
    varieties: 'Granny Smith',
    temperature: '0.6',
    oxygen: '1.5',
    carbonDioxide: '0.8',
    humidity: '94',
    life: '10 months',
  },
  'braeburn-ca': {
    varieties: 'Braeburn',
    temperature: '1.0',
    oxygen: '1.8',
    carbonDioxide: '0.8',
    humidity: '93',
    life: '9 months',
  },
  'braeburn-and-fuji': {
    varieties: 'Braeburn, Fuji',
    temperature: '1.0',
    oxygen: '1.8',
    carbonDioxide: '0.6',
    humidity: '93',
    life: '9 months',
    note: 'for a room that holds both',
  },
  'fuji-ca': {
    varieties: 'Fuji',
    temperature: '0.6',
    oxygen: '1.8',
    carbonDioxide: '0.6',
    humidity: '93',
    life: '10.5 months',
  },
  'pink-ca': {
    varieties: 'Cripps Pink',
    temperature: '1.7',
    oxygen: '1.8',
    carbonDioxide: '0.9',
    humidity: '94',
    life: '10 months',
  },
};

/** Every regime's own record says so. */
const SOURCE = 'own storage records 2019 to 2025';

/** The company's own values for varieties, and its regimes. */
export function regimesText(): string {
  const entries = Object.entries(REGIMES).map(([name, regime]) => entry(name, regime));
  return `# How the fruit is kept. Most of what is known of a variety is built in; here stands what the records of this house
# say otherwise, and the regimes its rooms are run at.
lotwright: 1

varieties:
  Gala:
    softening: 2.2 N # a month, in store
    source: ${SOURCE}
  Elstar:
    softening: 2.8 N
    source: ${SOURCE}

regimes:
${entries.join('\n')}
`;
}

function entry(name: string, regime: RegimeText): string {
  const gases =
    regime.oxygen === undefined
      ? []
      : [`    oxygen: ${regime.oxygen} %`, `    carbon-dioxide: ${regime.carbonDioxide} %`];
  return [
    `  ${name}:${regime.note ? ` # ${regime.note}` : ''}`,
    `    varieties: [${regime.varieties}]`,
    `    temperature: ${regime.temperature} °C`,
    ...gases,
    `    humidity: ${regime.humidity} %`,
    `    storage-life: ${regime.life}`,
    `    source: ${SOURCE}`,
  ].join('\n');
}
