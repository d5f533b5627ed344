/** Stands beside everything that was invented for looking around. */
export function DemoMark() {
  return <span className="ms-2 rounded border border-caution px-1 text-s text-caution">demo</span>
}
