// Words as data: what a message is made of (bench/words/catalogue.py, frontend/words.js).

export type Pattern = string | (string | [string] | Choice)[];
export type Choice = [string, { [variant: string]: Pattern }, string];
export type Values = { readonly [argument: string]: string | number };
export type Table = { language: string; point: string; languages: { [tag: string]: string }; messages: { [key: string]: Pattern } };
