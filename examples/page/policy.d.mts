export const policy: string;
export const headers: Record<string, string>;
