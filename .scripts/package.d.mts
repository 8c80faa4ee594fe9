export function makePackage(): Promise<string>;
export function pack(): string;
