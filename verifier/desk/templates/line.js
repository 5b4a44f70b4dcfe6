// The line to the desk: what it tells comes in, what is wanted goes out; when it breaks, it is taken up again.
export const line = (hear, standing) => {
  const address = `ws://${location.host}${location.pathname}live`;
  const waiting = [];
  let socket;
  const open = () => {
    socket = new WebSocket(address);
    socket.onopen = () => {
      standing(true);
      for (const wish of waiting.splice(0)) socket.send(wish);
    };
    socket.onmessage = message => hear(JSON.parse(message.data));
    socket.onclose = () => {
      standing(false);
      setTimeout(open, 500);
    };
  };
  open();
  return wish => {
    const text = JSON.stringify(wish);
    if (socket.readyState === WebSocket.OPEN) socket.send(text);
    else waiting.push(text);
  };
};
