// Physics of the process
export {};
