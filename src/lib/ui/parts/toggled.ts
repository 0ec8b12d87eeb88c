/** The list without the value that was in it, or with the one that was not. */
export function toggled<Value>(list: readonly Value[], value: Value): Value[] {
  return list.includes(value) ? list.filter((one) => one !== value) : [...list, value];
}
