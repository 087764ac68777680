// The clock of the screen: what is drawn anew each second, and how times of day and spans of time are
// written. Running timers are counted from the clock, so that a device that slept shows the truth when it
// wakes.
import { useEffect, useState } from "react";

/** Milliseconds since 1970, drawn anew every `every` milliseconds and when the page is looked at again. */
export function useNow(every = 1000): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const look = (): void => setNow(Date.now());
    const clock = setInterval(look, every);
    document.addEventListener("visibilitychange", look);
    return () => {
      clearInterval(clock);
      document.removeEventListener("visibilitychange", look);
    };
  }, [every]);
  return now;
}

/** `14:32`, in the clock of this place; with the day where it is another one. */
export function timeOfDay(at: number, now: number): string {
  const time = clockOf(at);
  return dayOf(at) === dayOf(now) ? time : `${dayOf(at)} ${time}`;
}

/** `2026-03-05 14:32`. */
export const dayAndTime = (at: number): string => `${dayOf(at)} ${clockOf(at)}`;

const two = (n: number): string => String(n).padStart(2, "0");
const clockOf = (at: number): string => {
  const date = new Date(at);
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
};
const dayOf = (at: number): string => {
  const date = new Date(at);
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
};

/** What is left, as large digits: `7:05`, `1:02:30`, `0:00`. Begun seconds count, so that 0:00 is over. */
export function countdown(milliseconds: number): string {
  const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor((seconds % 3600) / 60);
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}
