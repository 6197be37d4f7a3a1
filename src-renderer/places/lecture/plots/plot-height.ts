import { type RefObject, useEffect, useState } from 'react';

/** Least and greatest height of a plot's drawing, CSS pixels; what its title and edges take, and what lies between two. */
const LEAST_px = 116;
const MOST_px = 420;
const AROUND_px = 30;
const GAP_px = 6;

/** Height of each plot such that all rows of them fill the room there is; rows that do not fit are scrolled to. */
export function usePlotHeight(list: RefObject<HTMLDivElement | null>, count: number): number {
  const [height_px, setHeight] = useState(LEAST_px);
  useEffect(() => {
    const element = list.current;
    if (element === null) return;
    const fit = () => {
      const columns = getComputedStyle(element).gridTemplateColumns.split(' ').length;
      const rows = Math.max(1, Math.ceil(count / Math.max(1, columns)));
      const each_px = (element.clientHeight - (rows - 1) * GAP_px) / rows - AROUND_px;
      setHeight(Math.round(Math.min(MOST_px, Math.max(LEAST_px, each_px))));
    };
    const sizes = new ResizeObserver(fit);
    sizes.observe(element);
    fit();
    return () => sizes.disconnect();
  }, [list, count]);
  return height_px;
}
