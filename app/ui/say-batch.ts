/** "Date syrup, batch 3": which batch of a preparation was poured. */
export const sayBatch = ({ name, batch }: { readonly name: string; readonly batch: number | null }): string =>
  batch === null ? `${name}, nobody kept which batch` : `${name}, batch ${batch}`
