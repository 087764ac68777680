// An amount as it is typed at the cup: `130`, `4.5`, `4,5`, `1 3/8`. Nothing and anything else is no amount.

export function typedAmount(typed: string): number | undefined {
  const text = typed.trim().replace(/\s*\/\s*/g, "/");
  const whole = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(text);
  const value = whole
    ? Number(whole[1] ?? 0) + Number(whole[2]) / Number(whole[3])
    : /^(\d+([.,]\d*)?|[.,]\d+)$/.test(text)
      ? Number(text.replace(",", "."))
      : Number.NaN;
  return Number.isFinite(value) && value > 0 ? value : undefined;
}
