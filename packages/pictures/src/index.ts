// The pictures of a procedure, as plain data
export {};
