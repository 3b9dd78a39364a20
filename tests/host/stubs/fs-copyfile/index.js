import fs from 'node:fs';
export const { constants, copyFileSync } = fs;
export const { copyFile, cp } = fs.promises;
export const isCloneSupported = () => false;
