import address from 'virtual:judge';

/** Where the worker's module lies. It is built together with the page, so that both load the same core once. */
export const judgeAddress: string = address;
