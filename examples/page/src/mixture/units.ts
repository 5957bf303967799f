// Units that gauges are marked in, as a document names them and as they are typed.

export const VACUUM = {
  kpa: "kPa",
  mbar: "mbar",
  inhg: "inHg",
  mmhg: "mmHg",
  inh2o: "inH2O",
} as const;

export type VacuumUnit = keyof typeof VACUUM;

/** The unit of a part of a document that says vacuum; kPa where it says none. */
export const vacuumOf = (said: unknown): string => VACUUM[said as VacuumUnit] ?? VACUUM.kpa;

/** The same as choices of a field. */
export const VACUUM_UNITS: [string, string][] = (Object.keys(VACUUM) as VacuumUnit[]).map((unit) => [
  unit,
  VACUUM[unit],
]);
