import { useEffect } from 'react';
import { StageVoice } from '../../../ui/StageVoice.tsx';
import { shownBoard, useBoards } from '../boards/board-store.ts';
import { AidToggles } from './AidToggles.tsx';
import { BlackOut } from './BlackOut.tsx';
import { DrawOver } from './DrawOver.tsx';
import { defaultPair } from './default-pair.ts';
import { PointerTrail } from './PointerTrail.tsx';
import { RoomTools } from './RoomTools.tsx';
import { TwinStage } from './TwinStage.tsx';
import { TwinTransport } from './TwinTransport.tsx';
import { drawTwins } from './twin-drawing.ts';
import { twinSpoken } from './twin-spoken.ts';
import { twinEngine, useTwin } from './twin-store.ts';
import { useLectureKeys } from './use-lecture-keys.ts';
import { useLivePad } from './use-live-pad.ts';

/** The place shows a pair by itself where no board does. */
function startUnasked(): void {
  const pair = useTwin.getState().setup === null ? defaultPair() : null;
  if (pair !== null) twinEngine.start(pair);
}

/** What lies over the whole window; outside of the pair, which measures its own rows. */
export function OverAll() {
  return (
    <>
      <PointerTrail />
      <BlackOut />
    </>
  );
}

/** Both eyes side by side under one hand and one clock; a single eye takes the whole width. */
export function TwinPanel() {
  useLectureKeys();
  useLivePad();
  useEffect(() => {
    const stop = drawTwins();
    return () => {
      stop();
      twinEngine.play(false);
    };
  }, []);
  const noBoard = useBoards((state) => state.loaded && shownBoard(state) === null);
  useEffect(() => {
    if (noBoard) startUnasked();
  }, [noBoard]);
  const hasLeft = useTwin((state) => state.left !== null);
  const hasRight = useTwin((state) => state.right !== null);
  return (
    <div className="twin" data-testid="twin">
      <AidToggles />
      <div className="twin-eyes">
        {hasLeft && <TwinStage side="left" />}
        {hasRight && <TwinStage side="right" />}
        <DrawOver />
      </div>
      <TwinTransport />
      <RoomTools />
      <StageVoice read={twinSpoken} />
    </div>
  );
}
