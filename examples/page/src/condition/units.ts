// Units that pressure gauges and torque wrenches are marked in, as a document names them and as they are typed.

const PRESSURES: Record<string, string> = { kpa: "kPa", bar: "bar", psi: "psi", "kgf/cm2": "kgf/cm2" };

/** The unit of a part of a document that says pressure; kPa where it says none. */
export const pressureOf = (said: unknown): string => PRESSURES[String(said)] ?? "kPa";

/** The same as choices of a field. */
export const PRESSURE_UNITS: [string, string][] = Object.entries(PRESSURES);

/** Those of torque, which a document names as they are typed. */
export const TORQUE_UNITS = ["Nm", "kgf m", "lbf ft"].map((unit): [string, string] => [unit, unit]);
